/** The dated copies of a book in a folder: what they are called, what is known of each, and what a book lacks. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type Database from 'better-sqlite3';
import * as z from 'zod';
import type { AheadContext } from '#lib/backup/backups.ts';
import { type BackupDone, type BackupReport, backupOpenBook } from './backup.ts';
import { checksumBeside, writeToDisk } from './files.ts';
import { endingFor, openCopy } from './lock.ts';
import { EMPTY_HEAD, type LogHead } from './log.ts';
import type { Book } from './open.ts';
import { isSealed } from './seal.ts';

/** What is written beside a dated copy, so that a list of copies need not open any of them. */
const aboutCopy = z.object({
  at: z.string(),
  bytes: z.int(),
  sha256: z.string(),
  logHead: z.object({ seq: z.int(), hash: z.string() }),
  /** What became of replaying the log of the copy; not there before that is done. */
  proof: z.object({ ok: z.boolean(), words: z.string() }).optional(),
});

export type Proof = NonNullable<z.output<typeof aboutCopy>['proof']>;

interface Copy {
  /** The book's file. */
  readonly book: string;
  readonly name: string;
  readonly file: string;
  /** ISO 8601 time in UTC at which it was begun. */
  readonly at: string;
  /** Null where the words beside the copy are missing or cannot be read. */
  readonly about: z.output<typeof aboutCopy> | null;
}

export function aboutFile(file: string): string {
  return `${file}.json`;
}

function stemOf(book: string): string {
  return basename(book).replace(/\.book$/, '');
}

/** Such as `lantern-20260228T140509123Z.book`, with `.locked` behind it where it will be locked: in the order of their names they are in the order of their times. */
export function nameOfCopy(book: string, at: Date, folder: string): string {
  return `${stemOf(book)}-${at.toISOString().replace(/[-:.]/g, '')}${endingFor(book, folder)}`;
}

/** The dated copies of this book in the folder, newest first; none where there is no such folder. */
export function copiesIn(folder: string, book: string): Copy[] {
  if (!existsSync(folder)) return [];
  const stem = stemOf(book);
  return readdirSync(folder)
    .flatMap((name): Copy[] => {
      const stamp =
        name.startsWith(`${stem}-`) && /^(\d{8}T\d{9}Z)\.book(?:\.locked)?$/.exec(name.slice(stem.length + 1))?.[1];
      const file = join(folder, name);
      return stamp ? [{ book, name, file, at: timeOf(stamp), about: readAbout(file) }] : [];
    })
    .sort((a, b) => (a.at < b.at ? 1 : -1));
}

/** So long a draft lies untouched before nobody writes it any more: a copy takes seconds. */
const DRAFT_IS_LEFT_MS = 3_600_000;

/** Takes away what killed programs left of dated copies of this book in the folder. */
export function dropLeftDrafts(folder: string, book: string, now: Date): void {
  for (const name of readdirSync(folder)) {
    if (!(name.startsWith(`${stemOf(book)}-`) && /-\d{8}T\d{9}Z\.book(\.locked)?\.[0-9a-f]{8}\.partial/.test(name)))
      continue;
    const file = join(folder, name);
    const untouched = now.getTime() - (statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? Number.POSITIVE_INFINITY);
    if (untouched > DRAFT_IS_LEFT_MS) rmSync(file, { force: true });
  }
}

function timeOf(stamp: string): string {
  return stamp.replace(/^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)(\d{3})Z$/, '$1-$2-$3T$4:$5:$6.$7Z');
}

/** What is written beside a copy; null where that is missing or cannot be read. */
export function readAbout(file: string): Copy['about'] {
  try {
    return aboutCopy.parse(JSON.parse(readFileSync(aboutFile(file), 'utf8')));
  } catch {
    return null;
  }
}

/** A log by the hashes of its lines. Equal hashes mean that all lines up to there are equal. */
export interface Chain {
  readonly head: LogHead;
  hashAt(seq: number): string | undefined;
  /** The time of a line; empty where there is none. */
  atOf(seq: number): string;
}

/** The log of a book that is not there. */
export const EMPTY_CHAIN: Chain = {
  head: EMPTY_HEAD,
  hashAt: (seq) => (seq === EMPTY_HEAD.seq ? EMPTY_HEAD.hash : undefined),
  atOf: () => '',
};

export function chainIn(sqlite: Database.Database): Chain {
  const find = sqlite.prepare<[number], string>('SELECT hash FROM log WHERE seq = ?').pluck();
  const head = sqlite.prepare<[], LogHead>('SELECT seq, hash FROM log ORDER BY seq DESC LIMIT 1').get() ?? EMPTY_HEAD;
  const time = sqlite.prepare<[number], string>('SELECT at FROM log WHERE seq = ?').pluck();
  const hashAt: Chain['hashAt'] = (seq) => (seq === EMPTY_HEAD.seq ? EMPTY_HEAD.hash : find.get(seq));
  return { head, hashAt, atOf: (seq) => time.get(seq) ?? '' };
}

export function isIn({ hashAt }: Chain, { seq, hash }: LogHead): boolean {
  return hashAt(seq) === hash;
}

/** The copies that have entries the book does not, the longest first; none of them is the beginning of another. */
export function copiesAhead(copies: readonly Copy[], book: Chain): AheadContext[] {
  const off = copies
    .flatMap((copy) => (copy.about && !isIn(book, copy.about.logHead) ? [{ ...copy, head: copy.about.logHead }] : []))
    .sort((a, b) => b.head.seq - a.head.seq);
  const open: NonNullable<ReturnType<typeof openOrNone>>[] = [];
  try {
    return off.flatMap(({ book: of, name, file, head }): AheadContext[] => {
      if (open.some(({ chain }) => isIn(chain, head))) return [];
      const copy = openOrNone(of, file);
      if (!copy) return [{ name, more: null, fewer: null }];
      open.push(copy);
      const shared = lastShared(book, copy.chain);
      return [{ name, more: copy.chain.head.seq - shared, fewer: book.head.seq - shared }];
    });
  } finally {
    for (const { close } of open) close();
  }
}

/** The files of the copies that do not end within the book, as far as the words beside them say. */
export function copiesOff(copies: readonly Copy[], book: Chain): string[] {
  return copies.flatMap(({ file, about }) => (about && isIn(book, about.logHead) ? [] : [file]));
}

/** What a book lacks that a backup has. */
export interface Behind {
  /** The longest backup that is as it was written; null where none of those with more entries is. */
  readonly whole: {
    readonly file: string;
    readonly more: number;
    /** How many entries the book has of its own. */
    readonly fewer: number;
    /** ISO 8601 time of the first entry that the book lacks. */
    readonly since: string;
  } | null;
  /** Files of backups with more entries, longer than that one, that are not as they were written. */
  readonly damaged: readonly string[];
}

/**
 * Looks through the copies for what the book lacks; null where it lacks nothing. Reads whole files, to offer none that
 * is damaged: for the start, and not for a page.
 */
export function lackingIn(copies: readonly Copy[], book: Chain): Behind | null {
  const damaged: string[] = [];
  const off = copies
    .filter(({ about }) => !about || !isIn(book, about.logHead))
    .sort((a, b) => (b.about?.logHead.seq ?? 0) - (a.about?.logHead.seq ?? 0));
  for (const { book: of, file, about } of off) {
    const copy = openOrNone(of, file) ?? unopened(file, about, book);
    try {
      if (copy && about?.proof?.ok !== false && isAsWritten(file, about)) {
        const { head, atOf } = copy.chain;
        // Of one without words beside it only the file says where it ends.
        if (isIn(book, head)) continue;
        const shared = lastShared(book, copy.chain);
        const [more, fewer] = [head.seq - shared, book.head.seq - shared];
        return { whole: { file, more, fewer, since: atOf(shared + 1) }, damaged };
      }
      if (about) damaged.push(file);
    } finally {
      copy?.close();
    }
  }
  return damaged.length === 0 ? null : { whole: null, damaged };
}

function isAsWritten(file: string, about: Copy['about']): boolean {
  const beside = checksumBeside(file);
  const ought = about?.sha256 ?? (beside.ok ? beside.value : '');
  return ought === null || ought === createHash('sha256').update(readFileSync(file)).digest('hex');
}

/** A copy that cannot be read is told all the same. */
function openOrNone(book: string, file: string) {
  const sqlite = openCopy(book, file);
  try {
    return sqlite && { chain: chainIn(sqlite), close: () => sqlite.close() };
  } catch {
    sqlite?.close();
    return null;
  }
}

/**
 * A copy that is locked with a passphrase of another laptop: where it ends stands beside it. It is taken to have the
 * book's own lines, as far as it goes, because nobody here can say.
 */
function unopened(file: string, about: Copy['about'], book: Chain) {
  if (!about || !existsSync(file) || !isSealed(file)) return null;
  const { logHead: head, at } = about;
  const hashAt: Chain['hashAt'] = (seq) =>
    seq < head.seq ? book.hashAt(seq) : seq === head.seq ? head.hash : undefined;
  return { chain: { head, hashAt, atOf: () => at }, close: () => {} };
}

/** The last line that two logs have in common, found by halving: before it every line is shared, behind it none. */
function lastShared(one: Chain, other: Chain): number {
  let [shared, apart] = [0, Math.min(one.head.seq, other.head.seq) + 1];
  while (apart - shared > 1) {
    const middle = Math.floor((shared + apart) / 2);
    if (one.hashAt(middle) === other.hashAt(middle)) shared = middle;
    else apart = middle;
  }
  return shared;
}

/**
 * Copies a book whose file is not in its place any more out of the open one, as one of its dated copies. Nothing older
 * goes. Throws where the disk fails.
 */
export async function rescueCopy(book: Book, folder: string, now: Date): Promise<BackupReport> {
  const done = await backupOpenBook(book, join(folder, nameOfCopy(book.file, now, folder)));
  if (done.ok) noteAbout(done, now);
  return done;
}

export function noteAbout({ file, bytes, sha256, logHead }: BackupDone, now: Date, proof?: Proof): void {
  const about = { at: now.toISOString(), bytes, sha256, logHead, proof };
  writeToDisk(aboutFile(file), `${JSON.stringify(about, null, 2)}\n`);
}

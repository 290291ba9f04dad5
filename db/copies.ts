/** The dated copies of a book in a folder: what they are called, what is known of each, and which are let go. */
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import { z } from 'zod';
import { type CopyHead, copiesToLetGo } from '#lib/thin-copies.ts';
import { checksumFile } from './checksum.ts';
import { type Chain, isIn } from './copies-ahead.ts';
import type { LogHead } from './log.ts';

/** What is written beside a dated copy, so that a list of copies need not open any of them. */
const aboutCopy = z.object({
  at: z.string(),
  bytes: z.int(),
  sha256: z.string(),
  logHead: z.object({ seq: z.int(), hash: z.string() }),
});

export interface Copy {
  readonly name: string;
  readonly file: string;
  /** ISO 8601 time in UTC at which it was begun. */
  readonly at: string;
  /** Null where the words beside the copy are missing or cannot be read. */
  readonly about: { readonly bytes: number; readonly sha256: string; readonly logHead: LogHead } | null;
}

export function aboutFile(file: string): string {
  return `${file}.json`;
}

function stemOf(book: string): string {
  return basename(book).replace(/\.book$/, '');
}

/** Such as `lantern-20260228T140509123Z.book`: in the order of their names they are in the order of their times. */
export function nameOfCopy(book: string, at: Date): string {
  return `${stemOf(book)}-${at.toISOString().replace(/[-:.]/g, '')}.book`;
}

/** The dated copies of this book in the folder, newest first; none where there is no such folder. */
export function copiesIn(folder: string, book: string): Copy[] {
  if (!existsSync(folder)) return [];
  const stem = stemOf(book);
  return readdirSync(folder)
    .flatMap((name): Copy[] => {
      const stamp = name.startsWith(`${stem}-`) && /^(\d{8}T\d{9}Z)\.book$/.exec(name.slice(stem.length + 1))?.[1];
      return stamp ? [{ name, file: join(folder, name), at: timeOf(stamp), about: aboutOf(join(folder, name)) }] : [];
    })
    .sort((a, b) => (a.at < b.at ? 1 : -1));
}

function timeOf(stamp: string): string {
  return stamp.replace(/^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)(\d{3})Z$/, '$1-$2-$3T$4:$5:$6.$7Z');
}

function aboutOf(file: string): Copy['about'] {
  try {
    return aboutCopy.parse(JSON.parse(readFileSync(aboutFile(file), 'utf8')));
  } catch {
    return null;
  }
}

/**
 * Lets go of the copies that the rule does not keep; gives their names. `chain` is the log of a copy that was just made
 * and proved, and that stays.
 */
export function thinOut(folder: string, { book, now, timeZone, chain }: Thinning): string[] {
  const copies = copiesIn(folder, book).map(({ name, at, about }) => ({
    ...{ name, at, head: about && { line: about.logHead.seq, hash: about.logHead.hash } },
  }));
  const inBook = ({ line, hash }: CopyHead) => isIn(chain, { seq: line, hash });
  const go = copiesToLetGo(copies, { now: now.toISOString(), timeZone, inBook });
  for (const name of go) {
    const file = join(folder, name);
    for (const one of [file, checksumFile(file), aboutFile(file)]) rmSync(one, { force: true });
  }
  return go;
}

interface Thinning {
  readonly book: string;
  readonly now: Date;
  /** Where the association is: its days are meant. */
  readonly timeZone: string;
  readonly chain: Chain;
}

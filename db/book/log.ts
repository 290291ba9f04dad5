/** The log that proves itself: each line carries a hash over the line before it and its own RFC 8785 form. */
import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import { desc, max } from 'drizzle-orm';
import { log } from '#db/schema/index.ts';
import type { Json } from './command.ts';
import { rowBy } from './find.ts';
import { type Book, equals, query } from './open.ts';
import { insertRow } from './rows.ts';

export type LogRow = typeof log.$inferSelect;

export interface LogHead {
  readonly seq: number;
  readonly hash: string;
}

/** What the first line hashes over: no line came before it. */
export const EMPTY_HEAD: LogHead = { seq: 0, hash: '0'.repeat(64) };

type Unsealed = Omit<LogRow, 'hash'>;

/** RFC 8785 text of a JSON value. */
export function canonical(value: unknown): string {
  const text = plainText(value);
  // What is no plain JSON is left to the library, which says what is wrong with it.
  const spelt = text === undefined || hasLoneSurrogate(text) ? canonicalize(value) : text;
  if (spelt === undefined) throw new TypeError('Only JSON values have a canonical form.');
  return spelt;
}

/**
 * The same of plain JSON in a fraction of the time that the library takes, which the tests hold it to: ECMAScript's
 * own JSON spells texts and numbers as RFC 8785 does, and its sort is by UTF-16 code units. Undefined for anything else.
 */
function plainText(value: unknown): string | undefined {
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return JSON.stringify(value);
  if (typeof value === 'number') return Number.isFinite(value) ? JSON.stringify(value) : undefined;
  if (typeof value !== 'object' || 'toJSON' in value) return undefined;
  const parts = Array.isArray(value) ? value.map(plainText) : Object.keys(value).sort().map(namedIn(value));
  if (parts.includes(undefined)) return undefined;
  return Array.isArray(value) ? `[${parts.join(',')}]` : `{${parts.join(',')}}`;
}

function namedIn(value: object) {
  return (name: string): string | undefined => {
    const text = plainText((value as Readonly<Record<string, unknown>>)[name]);
    return text === undefined ? undefined : `${JSON.stringify(name)}:${text}`;
  };
}

/**
 * SHA-256 in hex over the previous hash and the RFC 8785 form of the line.
 * `input` and `result` go in as the text that is stored, so that every stored byte is under the hash.
 */
export function hashOfLine({ prevHash, ...line }: Unsealed): string {
  return createHash('sha256').update(prevHash).update(canonicalLine(line)).digest('hex');
}

type Sealed = Omit<Unsealed, 'prevHash'>;

/**
 * What {@link canonical} gives for a line, in one pass: RFC 8785 writes texts and whole numbers as ECMAScript's own
 * JSON does, and the names of a line are always the same, here in its order. A text that is no Unicode has no such form.
 */
export function canonicalLine({ seq, at, worker, station, command, key, input, result }: Sealed): string {
  const text = JSON.stringify({ at, command, input, key, result, seq, station, worker });
  if (hasLoneSurrogate(text)) throw new TypeError('A line that is not Unicode has no canonical form.');
  return text;
}

/** ECMAScript's JSON writes half of a surrogate pair as an escape, which it never does with a letter. */
const LONE_SURROGATE = /(?<!\\)(?:\\\\)*\\ud[89a-f]/;

function hasLoneSurrogate(text: string): boolean {
  return text.includes('\\ud') && LONE_SURROGATE.test(text);
}

const newestHead = query(({ db }) =>
  db.select({ seq: log.seq, hash: log.hash }).from(log).orderBy(desc(log.seq)).limit(1),
);

export function logHead(book: Book): LogHead {
  return newestHead(book).get() ?? EMPTY_HEAD;
}

/** So much of a hash, in hex, tells one line from every other. */
const SHORT_HASH = 20;

/** The head as it is said to anybody: `2069:3f9a…`, the line and the beginning of its hash. */
export function headInShort({ seq, hash }: LogHead): string {
  return `${seq}:${hash.slice(0, SHORT_HASH)}`;
}

const highestSeq = query(({ db }) => db.select({ seq: max(log.seq) }).from(log));

/** The number of the newest line, 0 before the first: without reading the line, which may be a whole imported sale. */
export function newestLine(book: Book): number {
  return highestSeq(book).get()?.seq ?? 0;
}

const hashes = query(({ db }) => db.select({ hash: log.hash }).from(log).where(equals(log.seq, 'seq')));

/** The hash of one line alone, because the line may be a whole imported sale; undefined where the log is shorter. */
export function hashAt(book: Book, seq: number): string | undefined {
  return seq === EMPTY_HEAD.seq ? EMPTY_HEAD.hash : hashes(book).get({ seq })?.hash;
}

/** What tells this book from every other one, also after a restore: out of its first line, in which a drawn key stands. */
export function idOfBook(book: Book): string | undefined {
  return hashAt(book, 1)?.slice(0, SHORT_HASH);
}

export const lineWithKey = rowBy(log, 'key');
export const lineWithSeq = rowBy(log, 'seq');

export const lineAt = rowBy(log, 'seq');

export interface NewLine extends Omit<LogRow, 'seq' | 'result' | 'prevHash' | 'hash'> {
  readonly result: Json;
  /** The hash of a line that was redacted since it was sealed: its own text does not give it any more. */
  readonly sealedAs?: string | undefined;
}

/** Seals and appends one line behind `head`. Only the door calls this, inside its transaction. */
export function appendLine(book: Book, head: LogHead, { sealedAs, ...line }: NewLine): LogHead {
  const unsealed = { ...line, seq: head.seq + 1, result: canonical(line.result), prevHash: head.hash };
  const row: LogRow = { ...unsealed, hash: sealedAs ?? hashOfLine(unsealed) };
  insertRow(book, log, row);
  return { seq: row.seq, hash: row.hash };
}

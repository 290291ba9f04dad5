/**
 * Which laptop leads a book, said so that a laptop that led it before can believe it. What is said is sealed with a
 * secret out of the book's first line, which whoever merely stands in the hall does not have.
 */
import { createHash, createHmac, timingSafeEqual } from 'node:crypto';
import * as z from 'zod';
import { hashAt, idOfBook, lineWithSeq, newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { FIRST_EPOCH, takeoversOf } from './epoch.ts';

/** Under this name a browser carries what the leading laptop said of itself to every other one at the same address. */
export const LEAD_COOKIE = 'peltry-lead';

/** So much of a hash tells two histories of one book apart. */
const HASH_DIGITS = 16;
const MOST_EARLIER = 6;

const lead = z.strictObject({
  book: z.string(),
  epoch: z.int(),
  /** The line of the take-over, and the beginning of its hash. */
  line: z.int(),
  hash: z.string(),
  laptop: z.string(),
  /** ISO 8601, UTC. */
  at: z.string(),
  /** Lines that the leading book has, each with the beginning of its hash, the newest first. */
  has: z.array(z.tuple([z.int(), z.string()])),
});

export type Lead = z.output<typeof lead>;
type Rank = Pick<Lead, 'epoch' | 'line' | 'hash'>;

const shortAt = (book: Book, seq: number): string => (hashAt(book, seq) ?? '').slice(0, HASH_DIGITS);

/** What a book says of its own leading: where its newest epoch began. */
function rankOf(book: Book): Rank {
  const [newest] = takeoversOf(book);
  return newest
    ? { epoch: newest.epoch, line: newest.line, hash: shortAt(book, newest.line) }
    : { epoch: FIRST_EPOCH, line: 0, hash: '' };
}

/** Of two laptops that began the same epoch, the one with the longer history leads: both come to the same result. */
function outranks(one: Rank, other: Rank): boolean {
  if (one.epoch !== other.epoch) return one.epoch > other.epoch;
  return one.line === other.line ? one.hash > other.hash : one.line > other.line;
}

/** Whether this leads the book, and not the laptop on which the book lies. */
export function isAbove(said: Lead, book: Book): boolean {
  return said.book === idOfBook(book) && outranks(said, rankOf(book));
}

/** The higher of several, or null of none. */
export function highestOf(leads: readonly Lead[]): Lead | null {
  return leads.reduce<Lead | null>((best, one) => (best && !outranks(one, best) ? best : one), null);
}

/**
 * How this book leads; null while nobody has taken it over. A restored one leads with its first own entry only: whoever
 * restores a backup to try it out stops nobody.
 */
export function leadOf(book: Book): Lead | null {
  const [newest, ...earlier] = takeoversOf(book);
  if (!newest || (newest.kind === 'restore' && newestLine(book) === newest.line)) return null;
  const { epoch, line, laptop, at } = newest;
  const known = [
    ...distances(line).map((back) => line - back),
    ...earlier.slice(0, MOST_EARLIER).map((one) => one.line - 1),
  ];
  const has = [...new Set(known)].sort((a, b) => b - a).map((seq): [number, string] => [seq, shortAt(book, seq)]);
  return { book: idOfBook(book) ?? '', epoch, line, hash: shortAt(book, line), laptop, at, has };
}

/** 1, 2, 4 … lines back, and the first line last. */
function distances(line: number): number[] {
  const all: number[] = [];
  for (let back = 1; back < line; back *= 2) all.push(back);
  return [...all, line - 1].filter((back) => back > 0);
}

/** Up to which line a book is known to be as the leading one; 0 where nothing is known. */
export function sharedWith(book: Book, { has }: Lead): number {
  return has.find(([seq, hash]) => seq > 0 && shortAt(book, seq) === hash)?.[0] ?? 0;
}

/**
 * A lead as it is carried by browsers and over the network: no secret, and nobody can make one up. It is as good on an
 * open line as on an encrypted one, and whoever repeats it only says again what is so.
 */
export function sealLead(book: Book, said: Lead): string {
  const text = Buffer.from(JSON.stringify(said)).toString('base64url');
  return `${text}.${sealOf(book, text).toString('base64url')}`;
}

/** What was sealed by whoever has this book; null for everything else. */
export function readLead(book: Book, sealed: string): Lead | null {
  const [text = '', seal = ''] = sealed.split('.');
  const [given, ought] = [Buffer.from(seal, 'base64url'), sealOf(book, text)];
  if (given.length !== ought.length || !timingSafeEqual(given, ought)) return null;
  return leadIn(Buffer.from(text, 'base64url').toString());
}

export function leadIn(text: string): Lead | null {
  try {
    return lead.parse(JSON.parse(text));
  } catch {
    return null;
  }
}

/** The key of the first line is drawn, 122 bits or more, and stands on no paper and in no answer. */
function sealOf(book: Book, text: string): Buffer {
  const first = lineWithSeq(book, 1);
  const secret = createHash('sha256').update(`peltry lead ${first?.key} ${first?.hash}`).digest();
  return createHmac('sha256', secret).update(text).digest();
}

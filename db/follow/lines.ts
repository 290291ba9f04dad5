/** What a second laptop asks of the first: the log lines behind those it has, as they stand, and which are redacted. */

import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import * as z from 'zod';
import { hashAt, type LogRow, logHead } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { type Redactions, redactionsIn } from '#db/book/redact.ts';
import { logLines } from '#db/verify/chain.ts';

/** So many lines travel at a time: enough to catch up soon, few enough for the Block not to wait. */
const LINES_AT_ONCE = 500;

const line = z.strictObject({
  ...{ seq: z.int(), at: z.string(), worker: z.string(), station: z.string(), command: z.string(), key: z.string() },
  ...{ input: z.string(), result: z.string(), prevHash: z.string(), hash: z.string() },
});

export const linesMessage = z.strictObject({
  /** The hash of the line after which these come, or null where the first has no such line. */
  after: z.string().nullable(),
  head: z.int(),
  lines: z.array(line),
  /** Line, sum and the line of the removal, for the redacted lines among these. */
  redactions: z.array(z.tuple([z.int(), z.string(), z.int()])),
});

export type LinesMessage = z.output<typeof linesMessage>;

/** The next lines behind line `seq`. */
export function linesBehind(book: Book, seq: number): LinesMessage {
  const lines: LogRow[] = [];
  for (const row of logLines(book.sqlite, { seq, hash: '' })) {
    lines.push(row);
    if (lines.length === LINES_AT_ONCE) break;
  }
  const redacted = redactionsIn(book.sqlite);
  const redactions = lines.flatMap(({ seq: at }): [number, string, number][] => {
    const said = redacted.get(at);
    return said ? [[at, said.sum, said.by]] : [];
  });
  return { after: hashAt(book, seq) ?? null, head: logHead(book).seq, lines, redactions };
}

export function redactionsOf({ redactions }: LinesMessage): Redactions {
  return new Map(redactions.map(([seq, sum, by]) => [seq, { sum, by }]));
}

/** Holds the key by which a second laptop is let in: 256 random bits, to be carried over by hand. */
export function followKeyFile(book: string): string {
  return `${book}.follow-key`;
}

/** The key of this book, drawn where there is none yet. */
export function drawFollowKey(book: string): string {
  const file = followKeyFile(book);
  const known = followKey(book);
  if (known !== undefined) return known;
  writeFileSync(file, `${randomBytes(32).toString('hex')}\n`, { mode: 0o600 });
  return followKey(book) ?? '';
}

export function followKey(book: string): string | undefined {
  const file = followKeyFile(book);
  const key = existsSync(file) ? readFileSync(file, 'utf8').trim() : '';
  return /^[0-9a-f]{64}$/.test(key) ? key : undefined;
}

/** Compares in a time that says nothing about how much was right. */
export function mayFollow(book: string, given: string): boolean {
  const key = followKey(book);
  return key !== undefined && timingSafeEqual(sumOf(key), sumOf(given));
}

function sumOf(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}

/** What a second laptop asks of the first: the log lines behind those it has, as they stand, and which are redacted. */

import * as z from 'zod';
import { hashAt, type LogRow, logHead } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { type Redactions, redactionsIn } from '#db/book/redact.ts';
import { carriedAuthority, keysOf } from '#db/certificate/keep.ts';
import { certificateOf } from '#db/certificate/names.ts';
import { recoveryWords } from '#db/certificate/sealed.ts';
import { hashesNow } from '#db/sign-in/passphrases.ts';
import type { SignIns } from '#db/sign-in/since.ts';
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
  /** Marks and hashes of the workers' passphrases, which are not in the lines. */
  passphrases: z.array(z.tuple([z.string(), z.string()])),
  /** The authority of the certificates with its key, for a laptop that has another one or none. */
  authority: carriedAuthority.optional(),
});

export type LinesMessage = z.output<typeof linesMessage>;

/** The next lines behind line `seq`, with what workers need to sign in where they come to. */
export function linesBehind(signIns: SignIns, seq: number): LinesMessage {
  const { book } = signIns;
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
  const passphrases = hashesNow(signIns).map(([mark, hash]): [string, string] => [mark, hash]);
  return { after: hashAt(book, seq) ?? null, head: logHead(book).seq, lines, redactions, passphrases };
}

export function redactionsOf({ redactions }: LinesMessage): Redactions {
  return new Map(redactions.map(([seq, sum, by]) => [seq, { sum, by }]));
}

/** The authority for a laptop that has the one with this fingerprint, or none: nothing where it is the same. */
export function authorityFor(book: Book, theirs: string | null): Pick<LinesMessage, 'authority'> {
  const own = certificateOf(book.file, 'authority')?.fingerprint256;
  const keys = theirs !== null && own !== undefined && own !== theirs ? keysOf(book.file, 'authority') : null;
  return keys ? { authority: { ...keys, words: recoveryWords(book.file) } } : {};
}

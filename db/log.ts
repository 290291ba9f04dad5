/** The log that proves itself: each line carries a hash over the line before it and its own RFC 8785 form. */
import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import { desc, eq, sql } from 'drizzle-orm';
import type { Json } from './command.ts';
import type { Book } from './open.ts';
import { log } from './schema/index.ts';

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
  const text = canonicalize(value);
  if (text === undefined) throw new TypeError('Only JSON values have a canonical form.');
  return text;
}

/**
 * SHA-256 in hex over the previous hash and the RFC 8785 form of the line.
 * `input` and `result` go in as the text that is stored, so that every stored byte is under the hash.
 */
export function hashOfLine({ prevHash, ...line }: Unsealed): string {
  return createHash('sha256').update(prevHash).update(canonical(line)).digest('hex');
}

export function logHead(book: Book): LogHead {
  const newest = book.prepared('log.head', (db) =>
    db.select({ seq: log.seq, hash: log.hash }).from(log).orderBy(desc(log.seq)).limit(1).prepare(),
  );
  return newest.get() ?? EMPTY_HEAD;
}

export function lineWithKey(book: Book, key: string): LogRow | undefined {
  const byKey = book.prepared('log.byKey', (db) =>
    db
      .select()
      .from(log)
      .where(eq(log.key, sql.placeholder('key')))
      .prepare(),
  );
  return byKey.get({ key });
}

export interface NewLine {
  readonly at: string;
  readonly worker: string;
  readonly station: string;
  readonly command: string;
  readonly key: string;
  readonly input: string;
  readonly result: Json;
  /** The hash of a line that was redacted since it was sealed: its own text does not give it any more. */
  readonly sealedAs?: string | undefined;
}

/** Seals and appends one line behind `head`. Only the door calls this, inside its transaction. */
export function appendLine(book: Book, head: LogHead, { sealedAs, ...line }: NewLine): LogHead {
  const unsealed = { ...line, seq: head.seq + 1, result: canonical(line.result), prevHash: head.hash };
  const row: LogRow = { ...unsealed, hash: sealedAs ?? hashOfLine(unsealed) };
  const insert = book.prepared('log.append', (db) =>
    db
      .insert(log)
      .values({
        seq: sql.placeholder('seq'),
        at: sql.placeholder('at'),
        worker: sql.placeholder('worker'),
        station: sql.placeholder('station'),
        command: sql.placeholder('command'),
        key: sql.placeholder('key'),
        input: sql.placeholder('input'),
        result: sql.placeholder('result'),
        prevHash: sql.placeholder('prevHash'),
        hash: sql.placeholder('hash'),
      })
      .prepare(),
  );
  insert.run(row);
  return { seq: row.seq, hash: row.hash };
}

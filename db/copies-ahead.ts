/** Which dated copies hold entries that the book does not: it may have lost its end, or another stands in its place. */
import type Database from 'better-sqlite3';
import type { AheadGround } from '#lib/backup-words.ts';
import type { Copy } from './copies.ts';
import { EMPTY_HEAD, type LogHead } from './log.ts';
import { openQuietly } from './open-quietly.ts';

/** A log by the hashes of its lines. Equal hashes mean that all lines up to there are equal. */
export interface Chain {
  readonly head: LogHead;
  hashAt(seq: number): string | undefined;
}

export function chainIn(sqlite: Database.Database): Chain {
  const find = sqlite.prepare<[number], string>('SELECT hash FROM log WHERE seq = ?').pluck();
  const head = sqlite.prepare<[], LogHead>('SELECT seq, hash FROM log ORDER BY seq DESC LIMIT 1').get() ?? EMPTY_HEAD;
  return { head, hashAt: (seq) => (seq === EMPTY_HEAD.seq ? EMPTY_HEAD.hash : find.get(seq)) };
}

export function isIn({ hashAt }: Chain, { seq, hash }: LogHead): boolean {
  return hashAt(seq) === hash;
}

/** The copies that have entries the book does not, the longest first; none of them is the beginning of another. */
export function copiesAhead(copies: readonly Copy[], book: Chain): AheadGround[] {
  const off = copies
    .flatMap(({ name, file, about }) =>
      about && !isIn(book, about.logHead) ? [{ name, file, head: about.logHead }] : [],
    )
    .sort((a, b) => b.head.seq - a.head.seq);
  const open: Opened[] = [];
  try {
    return off.flatMap(({ name, file, head }): AheadGround[] => {
      if (open.some(({ chain }) => isIn(chain, head))) return [];
      const copy = openOrNone(file);
      if (!copy) return [{ name, more: null, fewer: null }];
      open.push(copy);
      const shared = lastShared(book, copy.chain);
      return [{ name, more: copy.chain.head.seq - shared, fewer: book.head.seq - shared }];
    });
  } finally {
    for (const { close } of open) close();
  }
}

interface Opened {
  readonly chain: Chain;
  close(): void;
}

/** A copy that cannot be read is told all the same. */
function openOrNone(file: string): Opened | null {
  try {
    const sqlite = openQuietly(file);
    return { chain: chainIn(sqlite), close: () => sqlite.close() };
  } catch {
    return null;
  }
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

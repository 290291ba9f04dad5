/**
 * Where in the book's log a sign-in or a code began, and whether it still holds. It follows from the log alone: so it
 * holds for whatever way a change came into the book, and for a book that was put in the place of another.
 */
import { foldName } from '#lib/fold.ts';
import { stationsAfter, type WorkerChange } from '#lib/sign-in-ends.ts';
import { EMPTY_HEAD, logHead } from '../log.ts';
import type { Book } from '../open.ts';
import { findRow } from '../rows.ts';
import { worker } from '../schema/index.ts';
import type { Store } from './store.ts';

/** A book and the sign-ins beside it. */
export interface SignIns {
  readonly book: Book;
  readonly store: Store;
}

export interface Since {
  readonly line: number;
  /** The hash of that line: of another book, or of one that lost its end, the line is another. */
  readonly hash: string;
  /** The worker's stations at that line, with one space between. */
  readonly stations: string;
}

/** The mark for what begins now. */
export function sinceNow(book: Book, workerId: number): Since {
  const { seq, hash } = logHead(book);
  return { line: seq, hash, stations: findRow(book, worker, { id: workerId })?.stations ?? '' };
}

/** The mark as it is after what was said of the worker since, the same where nothing was; null where that ended it. */
export function stillSince(book: Book, workerId: number, since: Since): Since | null {
  const row = findRow(book, worker, { id: workerId });
  if (!row || row.hasLeft || hashOf(book, since.line) !== since.hash) return null;
  if (row.line <= since.line) return since;
  const stations = stationsAfter(since.stations.split(' '), changesOf(book, row, since.line));
  return stations && { line: row.line, hash: hashOf(book, row.line) ?? '', stations: stations.join(' ') };
}

function hashOf(book: Book, seq: number): string | undefined {
  // Only the hash: the line may be a whole imported sale.
  const find = book.prepared('hash of a line', () =>
    book.sqlite.prepare<[number], string>('SELECT hash FROM log WHERE seq = ?').pluck(),
  );
  return seq === EMPTY_HEAD.seq ? EMPTY_HEAD.hash : find.get(seq);
}

interface ChangeLine {
  readonly command: string;
  readonly worker: string;
  readonly input: string;
}

const CHANGES = `SELECT command, worker, input FROM log
  WHERE seq > ? AND seq <= ? AND command IN ('worker.amend', 'worker.passphrase', 'worker.renew') ORDER BY seq`;

/** What the log says of this worker behind a line, up to the line that wrote their row last. */
function changesOf(book: Book, row: typeof worker.$inferSelect, behind: number): WorkerChange[] {
  const find = book.prepared('changes of workers', () => book.sqlite.prepare<[number, number], ChangeLine>(CHANGES));
  return find.all(behind, row.line).flatMap(({ command, worker: giver, input }): WorkerChange[] => {
    if (command === 'worker.renew') return foldName(giver) === row.nameFolded ? [{ kind: 'passphrase' }] : [];
    const said = JSON.parse(input) as { workerId: number; stations: string[]; hasLeft: boolean };
    if (said.workerId !== row.id) return [];
    return [command === 'worker.amend' ? { kind: 'amended', ...said } : { kind: 'passphrase' }];
  });
}

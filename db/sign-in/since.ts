/**
 * Where in the book's log a sign-in or a code began, and whether it still holds. It follows from the log alone: so it
 * holds for whatever way a change came into the book, and for a book that was put in the place of another.
 */
import { and, asc, gt, inArray, lte, sql } from 'drizzle-orm';
import { hashAt, logHead } from '#db/book/log.ts';
import { type Book, statement } from '#db/book/open.ts';
import { log } from '#db/schema/index.ts';
import { type WorkerRow, workerRow } from '#db/worker/queries.ts';
import { foldName } from '#lib/result/search.ts';
import { stationsAfter, type WorkerChange } from '#lib/worker/worker.ts';
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
  return { line: seq, hash, stations: workerRow(book, workerId)?.stations ?? '' };
}

/** The mark as it is after what was said of the worker since, the same where nothing was; null where that ended it. */
export function stillSince(book: Book, workerId: number, since: Since): Since | null {
  const row = workerRow(book, workerId);
  if (!row || row.hasLeft || hashAt(book, since.line) !== since.hash) return null;
  if (row.line <= since.line) return since;
  const stations = stationsAfter(since.stations.split(' '), changesOf(book, row, since.line));
  return stations && { line: row.line, hash: hashAt(book, row.line) ?? '', stations: stations.join(' ') };
}

const changes = statement(({ db }) => {
  const since = and(gt(log.seq, sql.placeholder('behind')), lte(log.seq, sql.placeholder('upTo')));
  const ofWorkers = inArray(log.command, ['worker.amend', 'worker.passphrase', 'worker.renew']);
  const columns = { command: log.command, worker: log.worker, input: log.input };
  return db.select(columns).from(log).where(and(since, ofWorkers)).orderBy(asc(log.seq)).prepare();
});

/** What the log says of this worker behind a line, up to the line that wrote their row last. */
function changesOf(book: Book, row: WorkerRow, behind: number): WorkerChange[] {
  const lines = changes(book).all({ behind, upTo: row.line });
  return lines.flatMap(({ command, worker: giver, input }): WorkerChange[] => {
    if (command === 'worker.renew') return foldName(giver) === row.nameFolded ? [{ kind: 'passphrase' }] : [];
    const said = JSON.parse(input) as { workerId: number; stations: string[]; hasLeft: boolean };
    if (said.workerId !== row.id) return [];
    return [command === 'worker.amend' ? { kind: 'amended', ...said } : { kind: 'passphrase' }];
  });
}

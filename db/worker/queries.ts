/** Who works with the book: found by name for signing in, by number for sessions, and all of them for the office. */
import { asc } from 'drizzle-orm';
import { STATIONS, type Station } from '#db/book/command.ts';
import { rowBy } from '#db/book/find.ts';
import { type Book, query } from '#db/book/open.ts';
import { network, worker } from '#db/schema/index.ts';
import { foldName } from '#lib/result/search.ts';

export type WorkerRow = typeof worker.$inferSelect;

export interface Worker extends Pick<WorkerRow, 'id' | 'name' | 'hasLeft'> {
  readonly stations: readonly Station[];
}

const findAny = query(({ db }) => db.select({ id: worker.id }).from(worker).limit(1));

/** Whether anybody was ever entered: until then there is nobody who could sign in. */
export function hasWorkers(book: Book): boolean {
  return findAny(book).get() !== undefined;
}

const findAll = query(({ db }) => db.select().from(worker).orderBy(asc(worker.nameFolded)));

/** All workers by name, also those who have left. */
export function allWorkers(book: Book): Worker[] {
  return findAll(book).all().map(workerOf);
}

/** The row with its log line and all: what a sign-in is held against. */
export const workerRow = rowBy(worker, 'id');

export function workerById(book: Book, id: number): Worker | undefined {
  const row = workerRow(book, id);
  return row && workerOf(row);
}

const workerByFoldedName = rowBy(worker, 'nameFolded');

/** The worker of a name, however its letters are typed, with the mark of the passphrase. */
export function workerByName(book: Book, name: string): (Worker & { readonly passphraseMark: string }) | undefined {
  const row = workerByFoldedName(book, foldName(name));
  return row && { ...workerOf(row), passphraseMark: row.passphraseMark };
}

function workerOf({ id, name, stations, hasLeft }: WorkerRow): Worker {
  const words = new Set(stations.split(' '));
  return { id, name, stations: STATIONS.filter((station) => words.has(station)), hasLeft };
}

export interface NetworkSaid {
  /** Besides the machine's own names and addresses. */
  readonly hosts: readonly string[];
  /** Whether workers may sign in over a line that is not encrypted. */
  readonly plainStaff: boolean;
  /** Whether an entry is answered only once a second laptop has it, or has not answered for a moment. */
  readonly waitsForSecond: boolean;
  readonly reason: string;
  /** Who said so, and when (ISO 8601, UTC); empty where nobody has said anything. */
  readonly worker: string;
  readonly at: string;
}

const NOTHING_SAID: NetworkSaid = {
  hosts: [],
  plainStaff: false,
  waitsForSecond: false,
  reason: '',
  worker: '',
  at: '',
};

const findNetwork = query(({ db }) => db.select().from(network).limit(1));

/** What the office has said of the hall's network; where it has said nothing, lines must be encrypted. */
export function networkSaid(book: Book): NetworkSaid {
  const row = findNetwork(book).get();
  if (!row) return NOTHING_SAID;
  const { hosts, plainStaff, waitsForSecond, reason, worker, at } = row;
  return { hosts: hosts === '' ? [] : hosts.split(' '), plainStaff, waitsForSecond, reason, worker, at };
}

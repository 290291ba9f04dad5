/** Who works with the book: found by name for signing in, by number for sessions, and all of them for the office. */
import { asc, eq, sql } from 'drizzle-orm';
import { foldName } from '#lib/fold.ts';
import { STATIONS, type Station } from '../command.ts';
import type { Book } from '../open.ts';
import { worker } from '../schema/index.ts';
import { statement } from '../statement.ts';

export interface Worker {
  readonly id: number;
  readonly name: string;
  readonly stations: readonly Station[];
  readonly hasLeft: boolean;
}

export type WorkerRow = typeof worker.$inferSelect;

const findAny = statement(({ db }) => db.select({ id: worker.id }).from(worker).limit(1).prepare());

/** Whether anybody was ever entered: until then there is nobody who could sign in. */
export function hasWorkers(book: Book): boolean {
  return findAny(book).get() !== undefined;
}

const findAll = statement(({ db }) => db.select().from(worker).orderBy(asc(worker.nameFolded)).prepare());

/** All workers by name, also those who have left. */
export function allWorkers(book: Book): Worker[] {
  return findAll(book).all().map(workerOf);
}

const findById = statement(({ db }) =>
  db
    .select()
    .from(worker)
    .where(eq(worker.id, sql.placeholder('id')))
    .prepare(),
);

/** The row with its log line and all: what a sign-in is held against. */
export function workerRow(book: Book, id: number): WorkerRow | undefined {
  return findById(book).get({ id });
}

export function workerById(book: Book, id: number): Worker | undefined {
  const row = workerRow(book, id);
  return row && workerOf(row);
}

const findByName = statement(({ db }) =>
  db
    .select()
    .from(worker)
    .where(eq(worker.nameFolded, sql.placeholder('nameFolded')))
    .prepare(),
);

/** The worker of a name, however its letters are typed, with the hash of the passphrase. */
export function workerByName(book: Book, name: string): (Worker & { readonly passphraseHash: string }) | undefined {
  const row = findByName(book).get({ nameFolded: foldName(name) });
  return row && { ...workerOf(row), passphraseHash: row.passphraseHash };
}

function workerOf({ id, name, stations, hasLeft }: WorkerRow): Worker {
  const words = new Set(stations.split(' '));
  return { id, name, stations: STATIONS.filter((station) => words.has(station)), hasLeft };
}

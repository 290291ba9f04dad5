/** Who works with the book: found by name for signing in, by number for sessions, and all of them for the office. */
import { asc } from 'drizzle-orm';
import { foldName } from '#lib/fold.ts';
import { STATIONS, type Station } from '../command.ts';
import type { Book } from '../open.ts';
import { findRow } from '../rows.ts';
import { worker } from '../schema/index.ts';

export interface Worker {
  readonly id: number;
  readonly name: string;
  readonly stations: readonly Station[];
  readonly hasLeft: boolean;
}

type Row = typeof worker.$inferSelect;

/** Whether anybody was ever entered: until then there is nobody who could sign in. */
export function hasWorkers(book: Book): boolean {
  const first = book.prepared('any worker', (db) => db.select({ id: worker.id }).from(worker).limit(1).prepare());
  return first.get() !== undefined;
}

/** All workers by name, also those who have left. */
export function allWorkers(book: Book): Worker[] {
  const all = book.prepared('all workers', (db) => db.select().from(worker).orderBy(asc(worker.nameFolded)).prepare());
  return all.all().map(workerOf);
}

export function workerById(book: Book, id: number): Worker | undefined {
  const row = findRow(book, worker, { id });
  return row && workerOf(row);
}

/** The worker of a name, however its letters are typed, with the hash of the passphrase. */
export function workerByName(book: Book, name: string): (Worker & { readonly passphraseHash: string }) | undefined {
  const row = findRow(book, worker, { nameFolded: foldName(name) });
  return row && { ...workerOf(row), passphraseHash: row.passphraseHash };
}

function workerOf({ id, name, stations, hasLeft }: Row): Worker {
  const named = new Set(stations.split(' '));
  return { id, name, stations: STATIONS.filter((station) => named.has(station)), hasLeft };
}

/** The outcome that stands for a lot: the one that no later outcome replaces. */
import { and, eq, notExists, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type { Book } from '../open.ts';
import { outcome } from '../schema/index.ts';
import { statement } from '../statement.ts';

export type OutcomeRow = typeof outcome.$inferSelect;

const newestOfLot = statement(({ db }) => {
  const later = alias(outcome, 'later');
  const replaced = db.select({ id: later.id }).from(later).where(eq(later.replacesId, outcome.id));
  const newest = and(eq(outcome.lotId, sql.placeholder('lotId')), notExists(replaced));
  return db.select().from(outcome).where(newest).prepare();
});

/** The newest outcome of a lot, whatever its kind: a lot that was reopened has a `reopened` one. */
export function newestOutcome(book: Book, lotId: number): OutcomeRow | undefined {
  return newestOfLot(book).get({ lotId });
}

/** The outcome that stands, or undefined for a lot that is still to be called. */
export function standingOutcome(book: Book, lotId: number): OutcomeRow | undefined {
  const newest = newestOutcome(book, lotId);
  return newest?.kind === 'reopened' ? undefined : newest;
}

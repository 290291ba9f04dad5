/** The outcome that stands for a lot: the one that no later outcome replaces. */
import { and, eq, isNull, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type { Book } from '../open.ts';
import { outcome } from '../schema/index.ts';

export type OutcomeRow = typeof outcome.$inferSelect;

const later = alias(outcome, 'later');

/** The newest outcome of a lot, whatever its kind: a lot that was reopened has a `reopened` one. */
export function newestOutcome(book: Book, lotId: number): OutcomeRow | undefined {
  const find = book.prepared('newest outcome', (db) =>
    db
      .select({ outcome })
      .from(outcome)
      .leftJoin(later, eq(later.replacesId, outcome.id))
      .where(and(eq(outcome.lotId, sql.placeholder('lotId')), isNull(later.id)))
      .prepare(),
  );
  return find.get({ lotId })?.outcome;
}

/** The outcome that stands, or undefined for a lot that is still to be called. */
export function standingOutcome(book: Book, lotId: number): OutcomeRow | undefined {
  const newest = newestOutcome(book, lotId);
  return newest?.kind === 'reopened' ? undefined : newest;
}

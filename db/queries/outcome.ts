/** The outcome that stands for a lot: the one that no later outcome replaces. */
import type { Book } from '../open.ts';
import { findRows } from '../rows.ts';
import { outcome } from '../schema/index.ts';

export type OutcomeRow = typeof outcome.$inferSelect;

const NEWEST = {
  name: 'newest of a lot',
  where: 'lot_id = ? AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)',
};

/** The newest outcome of a lot, whatever its kind: a lot that was reopened has a `reopened` one. */
export function newestOutcome(book: Book, lotId: number): OutcomeRow | undefined {
  return findRows(book, outcome, { ...NEWEST, cells: [lotId] })[0];
}

/** The outcome that stands, or undefined for a lot that is still to be called. */
export function standingOutcome(book: Book, lotId: number): OutcomeRow | undefined {
  const newest = newestOutcome(book, lotId);
  return newest?.kind === 'reopened' ? undefined : newest;
}

/** The outcome in force for a lot: the one that no later outcome replaces. */
import { eq, sql } from 'drizzle-orm';
import { cents, showMoney } from '#lib/money.ts';
import type { Book } from '../open.ts';
import { buyer, newestOutcome as newest, type outcome, standingOutcome as standing } from '../schema/index.ts';
import { statement } from '../statement.ts';

export type OutcomeRow = typeof outcome.$inferSelect;

const given = sql.placeholder;

const findNewest = statement(({ db }) =>
  db
    .select()
    .from(newest)
    .where(eq(newest.lotId, given('lotId')))
    .prepare(),
);

/** The newest outcome of a lot, whatever its kind: a lot that was reopened has a `reopened` one. */
export function newestOutcome(book: Book, lotId: number): OutcomeRow | undefined {
  return findNewest(book).get({ lotId });
}

const findStanding = statement(({ db }) =>
  db
    .select()
    .from(standing)
    .where(eq(standing.lotId, given('lotId')))
    .prepare(),
);

/** The outcome that stands, or undefined for a lot that is still to be called. */
export function standingOutcome(book: Book, lotId: number): OutcomeRow | undefined {
  return findStanding(book).get({ lotId });
}

const findBuyerNo = statement(({ db }) =>
  db
    .select({ buyerNo: buyer.buyerNo })
    .from(buyer)
    .where(eq(buyer.id, given('id')))
    .prepare(),
);

/** The number of a buyer by the row; undefined where there is none. */
export function buyerNoOf(book: Book, id: number): number | undefined {
  return findBuyerNo(book).get({ id })?.buyerNo;
}

/** What stands, as words for a refusal: `sold to buyer 10 at 12.50`. */
export function outcomeInWords(book: Book, { kind, priceCents, buyerId }: OutcomeRow): string {
  if (kind !== 'sold' || priceCents === null || buyerId === null) return kind;
  return `sold to buyer ${buyerNoOf(book, buyerId) ?? '?'} at ${showMoney(cents(priceCents))}`;
}

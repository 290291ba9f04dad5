/**
 * The buyers of a sale who have a limit, with how much of it is left. Most have none, so the Block pays nothing for it,
 * and of the others an account is read again only after something touched it.
 */
import { and, eq, isNotNull, isNull, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { limitInWords } from '#lib/buyer/limit.ts';
import { billOf, premiumOf } from '#lib/invoice.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { type Cents, cents, subtractCents, sumCents, ZERO } from '#lib/money.ts';
import type { Book } from '../open.ts';
import { buyer, lot, outcome, payment } from '../schema/index.ts';
import { type BuyerRow, type SaleRow, saleById } from './find.ts';
import { type InPieces, wholeOf } from './kept-pieces.ts';
import { saleOfRow } from './sale-facts.ts';
import { numbersTouched } from './touched-numbers.ts';

const later = alias(outcome, 'later');

/** By buyer number, in words; without those who have no limit. */
export function limitsInWords(book: Book, saleId: number): Map<number, string> {
  const find = book.prepared('buyers with a limit', (db) =>
    db
      .select()
      .from(buyer)
      .where(and(eq(buyer.saleId, sql.placeholder('saleId')), isNotNull(buyer.limitCents)))
      .prepare(),
  );
  const rows = find.all({ saleId });
  const sale = rows.length > 0 ? saleById(book, saleId) : undefined;
  if (!sale) return new Map();
  const owing = wholeOf(book, owingInPieces(book, sale, rows)).owing;
  return new Map(
    rows.map((row) => [row.buyerNo, limitInWords(cents(row.limitCents ?? 0), owing.get(row.buyerNo) ?? ZERO)]),
  );
}

interface State {
  readonly owing: Map<number, Cents>;
  /** Buyers whose account has to be read again. */
  readonly due: Set<number>;
}

/** So many accounts are read at a time: some ten milliseconds. */
const BUYERS_A_PIECE = 10;

function owingInPieces(book: Book, sale: SaleRow, rows: readonly BuyerRow[]): InPieces<State> {
  const byNumber = new Map(rows.map((row) => [row.buyerNo, row]));
  return {
    name: `owing by buyers with a limit of ${sale.id}`,
    key: JSON.stringify([saleOfRow(book, sale).terms, rows.map(({ buyerNo }) => buyerNo)]),
    begin: () => ({ owing: new Map(), due: new Set(byNumber.keys()) }),
    renew({ due }, touched) {
      for (const buyerNo of numbersTouched(book, sale.id, touched).buyerNos)
        if (byNumber.has(buyerNo)) due.add(buyerNo);
      return true;
    },
    next({ owing, due }) {
      const some = [...due].slice(0, BUYERS_A_PIECE);
      for (const buyerNo of some) {
        const row = byNumber.get(buyerNo);
        if (row) owing.set(buyerNo, owingOf(book, sale, row));
        due.delete(buyerNo);
      }
      return some.length > 0;
    },
  };
}

/** The total of sum 8 less what was paid, of one buyer alone: the Block does not wait for the whole sale. */
export function owingOf(book: Book, sale: SaleRow, row: BuyerRow): Cents {
  const find = book.prepared('lots of a buyer', (db) =>
    db
      .select({
        by: lot.by,
        count: lot.count,
        weightThousandths: lot.weightThousandths,
        priceCents: outcome.priceCents,
      })
      .from(outcome)
      .innerJoin(lot, eq(lot.id, outcome.lotId))
      .leftJoin(later, eq(later.replacesId, outcome.id))
      .where(and(eq(outcome.buyerId, sql.placeholder('buyerId')), isNull(later.id)))
      .prepare(),
  );
  const { terms } = saleOfRow(book, sale);
  const lots = find.all({ buyerId: row.id }).map(({ priceCents, ...one }) => {
    const amountCents = lotAmount(cents(priceCents ?? 0), one);
    return { amountCents, premiumCents: premiumOf(amountCents, terms) };
  });
  return subtractCents(billOf(lots, { terms, taxExempt: row.taxExempt }).totalCents, paidBy(book, row.id));
}

function paidBy(book: Book, buyerId: number): Cents {
  const find = book.prepared('payments of a buyer', (db) =>
    db
      .select({ direction: payment.direction, amountCents: payment.amountCents, voidsId: payment.voidsId })
      .from(payment)
      .where(eq(payment.buyerId, sql.placeholder('buyerId')))
      .prepare(),
  );
  const amounts = find.all({ buyerId }).map(({ direction, amountCents, voidsId }) => {
    const comesIn = (direction === 'in') === (voidsId === null);
    return cents(comesIn ? amountCents : -amountCents);
  });
  return sumCents(amounts);
}

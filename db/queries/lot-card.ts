/** One lot with what was taken down for it, and which papers a change of that would touch. */
import { desc, eq, sql } from 'drizzle-orm';
import type { LotNo } from '#lib/lot-number.ts';
import type { Book } from '../open.ts';
import { invoice, settlement } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { type BlockLot, blockLots } from './block-view.ts';
import { type CalledLot, calledLot } from './called-lots.ts';
import { checksOfSale } from './checks.ts';
import { lotByNumber, type SaleRow, sellerById } from './find.ts';
import { isHanded } from './handed.ts';
import { standingOutcome } from './outcome.ts';

export interface LotCard {
  readonly lot: BlockLot;
  readonly called: CalledLot | null;
  /** A sentence for each paper or act that a correction would touch. */
  readonly touches: readonly string[];
}

export function lotCard(book: Book, sale: SaleRow, lotNo: LotNo): LotCard | null {
  const row = lotByNumber(book, sale.id, lotNo);
  const sellerNo = row && sellerById(book, row.sellerId)?.sellerNo;
  if (!row || sellerNo === undefined) return null;
  const lot = blockLots(book, sale, [{ lotId: row.id, sellerNo }])[0];
  if (!lot) return null;
  const buyerId = standingOutcome(book, row.id)?.buyerId ?? null;
  return {
    lot,
    called: calledLot(book, row.id) ?? null,
    touches: [
      ...invoicesTouched(book, buyerId),
      ...sheetsTouched(book, row.sellerId),
      ...checksTouched(book, sale.id, sellerNo),
      ...handedOver(book, row.id),
    ],
  };
}

const findInvoice = statement(({ db }) =>
  db
    .select({ number: invoice.number })
    .from(invoice)
    .where(eq(invoice.buyerId, sql.placeholder('buyerId')))
    .orderBy(desc(invoice.id))
    .limit(1)
    .prepare(),
);

function invoicesTouched(book: Book, buyerId: number | null): string[] {
  if (buyerId === null) return [];
  const found = findInvoice(book).get({ buyerId });
  return found ? [`Invoice ${found.number} was already handed to this buyer: the Till must correct it.`] : [];
}

const findSheet = statement(({ db }) =>
  db
    .select({ number: settlement.number })
    .from(settlement)
    .where(eq(settlement.sellerId, sql.placeholder('sellerId')))
    .orderBy(desc(settlement.id))
    .limit(1)
    .prepare(),
);

function sheetsTouched(book: Book, sellerId: number): string[] {
  const found = findSheet(book).get({ sellerId });
  return found ? [`Settlement sheet ${found.number} was already handed to this seller: Payout must correct it.`] : [];
}

function checksTouched(book: Book, saleId: number, sellerNo: number): string[] {
  const numbers = checksOfSale(book, saleId)
    .filter((check) => check.sellerNo === sellerNo && check.voidedOn === null)
    .map(({ number }) => number);
  if (numbers.length === 0) return [];
  const checks = numbers.length === 1 ? `Check ${numbers[0]} was` : `Checks ${numbers.join(', ')} were`;
  return [`${checks} already written to this seller: Payout must pay the difference or ask for it back.`];
}

function handedOver(book: Book, lotId: number): string[] {
  return isHanded(book, lotId) ? ['The lot was already handed over to its buyer.'] : [];
}

/** What the balance by which a sale is closed is made from, out of the book. */
import { asc, eq, sql } from 'drizzle-orm';
import type { ClosingFacts } from '#lib/closing/facts.ts';
import { isOpen } from '#lib/drawer/reckon.ts';
import type { SaleFacts } from '#lib/facts.ts';
import type { Cents } from '#lib/money.ts';
import type { SheetTotals } from '#lib/sheet/model.ts';
import type { Book } from '../open.ts';
import { buyer, invoice, seller, settlement } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { drawerEntries, drawerMoves } from './drawer.ts';
import { saleFacts } from './sale-facts.ts';

const given = sql.placeholder;

export interface ClosingScene extends ClosingFacts {
  readonly drawerOpen: boolean;
}

/** `facts` may be given where they were read already. */
export function closingFacts(book: Book, saleId: number, facts: SaleFacts = saleFacts(book, saleId)): ClosingScene {
  const drawer = drawerEntries(book, saleId);
  return {
    ...{ facts, drawer, moves: drawerMoves(book, saleId), drawerOpen: isOpen(drawer) },
    sheets: newestTotals(book, saleId),
    invoices: newestBills(book, saleId),
  };
}

// SQLite takes the sums out of the frozen papers: to read 5,000 whole sheets as JSON takes eight times as long.
const findTotals = statement(({ db }) =>
  db
    .select({
      sellerNo: seller.sellerNo,
      number: settlement.number,
      totals: sql<string>`coalesce(json_extract(${settlement.model}, '$.now.totals'), json_extract(${settlement.model}, '$.totals'))`,
    })
    .from(settlement)
    .innerJoin(seller, eq(seller.id, settlement.sellerId))
    .where(eq(settlement.saleId, given('saleId')))
    .orderBy(asc(settlement.number))
    .prepare(),
);

/** Of each seller number the newest sheet's, whose totals are those of the settlement also on a correction sheet. */
function newestTotals(book: Book, saleId: number): ClosingFacts['sheets'] {
  const rows = findTotals(book).all({ saleId });
  return new Map(
    rows.map(({ sellerNo, number, totals }) => [sellerNo, { number, totals: JSON.parse(totals) as SheetTotals }]),
  );
}

const findBills = statement(({ db }) =>
  db
    .select({
      buyerNo: buyer.buyerNo,
      number: invoice.number,
      totalCents: sql<Cents>`json_extract(${invoice.model}, '$.totals.totalCents')`,
    })
    .from(invoice)
    .innerJoin(buyer, eq(buyer.id, invoice.buyerId))
    .where(eq(invoice.saleId, given('saleId')))
    .orderBy(asc(invoice.number))
    .prepare(),
);

function newestBills(book: Book, saleId: number): ClosingFacts['invoices'] {
  const rows = findBills(book).all({ saleId });
  return new Map(rows.map(({ buyerNo, ...bill }) => [buyerNo, bill]));
}

/** The balance of a sale, what the association keeps of it, and its closings, as the treasurer's screens show them. */
import { and, asc, eq, sql } from 'drizzle-orm';
import { rowsBy, type SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { newestHandovers } from '#db/buyer/handover.ts';
import { drawerEntries, drawerMoves } from '#db/drawer/queries.ts';
import { invoiceStates } from '#db/invoice/queries.ts';
import { paperGround } from '#db/lot/papers.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { buyer, closing, invoice, particulars, seller, settlement } from '#db/schema/index.ts';
import { payoutSellers } from '#db/settlement/payout.ts';
import { isOpen } from '#lib/drawer/drawer.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import type { Cents } from '#lib/money/money.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import {
  type ClosingFacts,
  type ClosingLine,
  isOpenLine,
  type Progress,
  type Unfinished,
  unfinishedOf,
} from '#lib/report/closing-line.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { revenueOf, revenuePaper, saleRevenue } from '#lib/report/revenue.ts';
import { groupBy } from '#lib/result/text.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import type { SheetTotals } from '#lib/settlement/model.ts';
import { saleBefore } from './queries.ts';

export interface BalanceView {
  readonly lines: readonly ClosingLine[];
  /** How many of them are not at zero. */
  readonly open: number;
  readonly drawerOpen: boolean;
  readonly unfinished: readonly Unfinished[];
}

export function balanceView(book: Book, sale: SaleRow): BalanceView {
  const closing = closingFacts(book, sale.id);
  const lines = closingLines(closing);
  const unfinished = unfinishedOf(progressOf(book, sale, closing.facts), lines);
  return { lines, open: lines.filter(isOpenLine).length, drawerOpen: closing.drawerOpen, unfinished };
}

/** How far the papers and the lots of everybody in a sale have come. `facts` are those of the whole sale. */
export function progressOf(book: Book, sale: SaleRow, facts: SaleFacts): Progress {
  const sold = groupBy(
    facts.outcomes.filter(({ kind }) => kind === 'sold'),
    ({ buyerNo }) => buyerNo,
  );
  const invoices = invoiceStates(book, sale.id, null);
  const handed = newestHandovers(book, sale.id);
  const buyers = facts.buyers.map(({ buyerNo }) => {
    const bought = (sold.get(buyerNo) ?? []).map(({ lotNo }) => lotNo).sort(compareLotNo);
    const notHanded = bought.filter((lotNo) => {
      const newest = handed.get(lotNo);
      return newest?.kind !== 'handed' || newest.buyerNo !== buyerNo;
    });
    return { buyerNo, bought, notHanded, invoice: invoices.get(buyerNo) ?? null };
  });
  const sellers = payoutSellers(book, sale, facts).map(({ sellerNo, settled, sheetNumber, changed, accounts }) => {
    const unpaid = accounts.some(({ owingCents }) => owingCents > 0);
    return { sellerNo, lotsCalled: settled.rows.length, sheetNumber, changed, unpaid };
  });
  return { buyers: buyers.sort((a, b) => a.buyerNo - b.buyerNo), sellers };
}

/** What the association keeps of a sale beside the sale before it. `drawnOn` is an ISO 8601 date. */
export function revenueOfSale(book: Book, sale: SaleRow, drawnOn: string): ListPaper {
  const before = saleBefore(book, sale);
  const facts = saleFacts(book, sale.id);
  const goodsNames = new Map(facts.goods.map(({ goods, name }) => [goods, name]));
  return revenuePaper(
    paperGround(book, sale, drawnOn),
    { goodsNames, ...saleRevenue(facts) },
    before ? { heldOn: before.heldOn, revenue: revenueOf(saleFacts(book, before.id)) } : null,
  );
}

export interface Closing extends Pick<typeof closing.$inferSelect, 'kind' | 'reason' | 'worker' | 'at'> {
  readonly closingId: number;
  /** Null where the sale was opened again. */
  readonly report: ListPaper | null;
}

const closingRows = rowsBy(closing, closing.id, 'saleId');

/** When a sale was closed and opened again, by whom, and the report of each closing; the oldest first. */
export function closingsOf(book: Book, saleId: number): Closing[] {
  return closingRows(book, saleId).map(({ id: closingId, kind, reason, worker, at, model }) => {
    const report = model === null ? null : (JSON.parse(model) as ListPaper);
    return { closingId, kind, reason, worker, at, report };
  });
}

const findNames = query(({ db }) =>
  db
    .select({ buyerNo: buyer.buyerNo, name: particulars.name })
    .from(buyer)
    .leftJoin(particulars, and(eq(particulars.saleId, buyer.saleId), eq(particulars.personId, buyer.personId)))
    .where(equals(buyer.saleId, 'saleId')),
);

/** The name of each buyer of a sale by number, as it stood there. */
export function namesOfBuyers(book: Book, saleId: number): Map<number, string> {
  const rows = findNames(book).all({ saleId });
  return new Map(rows.map(({ buyerNo, name }) => [buyerNo, name ?? '']));
}

export interface ClosingContext extends ClosingFacts {
  readonly drawerOpen: boolean;
}

/** `facts` may be given where they were read already. */
export function closingFacts(book: Book, saleId: number, facts: SaleFacts = saleFacts(book, saleId)): ClosingContext {
  const drawer = drawerEntries(book, saleId);
  return {
    ...{ facts, drawer, moves: drawerMoves(book, saleId), drawerOpen: isOpen(drawer) },
    sheets: newestTotals(book, saleId),
    invoices: newestBills(book, saleId),
  };
}

// SQLite takes the sums out of the frozen papers: to read 5,000 whole sheets as JSON takes eight times as long.
const findTotals = query(({ db }) =>
  db
    .select({
      sellerNo: seller.sellerNo,
      number: settlement.number,
      totals: sql<string>`coalesce(json_extract(${settlement.model}, '$.now.totals'), json_extract(${settlement.model}, '$.totals'))`,
    })
    .from(settlement)
    .innerJoin(seller, eq(seller.id, settlement.sellerId))
    .where(equals(settlement.saleId, 'saleId'))
    .orderBy(asc(settlement.number)),
);

/** Of each seller number the newest sheet's, whose totals are those of the settlement also on a correction sheet. */
function newestTotals(book: Book, saleId: number): ClosingFacts['sheets'] {
  const rows = findTotals(book).all({ saleId });
  return new Map(
    rows.map(({ sellerNo, number, totals }) => [sellerNo, { number, totals: JSON.parse(totals) as SheetTotals }]),
  );
}

const findBills = query(({ db }) =>
  db
    .select({
      buyerNo: buyer.buyerNo,
      number: invoice.number,
      totalCents: sql<Cents>`json_extract(${invoice.model}, '$.totals.totalCents')`,
    })
    .from(invoice)
    .innerJoin(buyer, eq(buyer.id, invoice.buyerId))
    .where(equals(invoice.saleId, 'saleId'))
    .orderBy(asc(invoice.number)),
);

function newestBills(book: Book, saleId: number): ClosingFacts['invoices'] {
  const rows = findBills(book).all({ saleId });
  return new Map(rows.map(({ buyerNo, ...bill }) => [buyerNo, bill]));
}

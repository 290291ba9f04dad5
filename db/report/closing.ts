/** The balance of a sale, what the association keeps of it, and its closings, as the treasurer's screens show them. */
import { rowsBy, type SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { newestHandovers } from '#db/buyer/handover.ts';
import { drawerEntries, drawerMoves } from '#db/drawer/queries.ts';
import { invoiceStates } from '#db/invoice/queries.ts';
import { paperGround } from '#db/lot/papers.ts';
import { type TakingSums, takingSums } from '#db/payment/takings.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { closing } from '#db/schema/index.ts';
import { payoutSellers } from '#db/settlement/payout.ts';
import { isOpen } from '#lib/drawer/drawer.ts';
import type { Cents } from '#lib/money/money.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import {
  type CloseContext,
  type ClosingFacts,
  isOpenLine,
  overShortOf,
  unfinishedOf,
} from '#lib/report/closing-line.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { revenueOf, revenuePaper, saleRevenue } from '#lib/report/revenue.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import { saleBefore } from './queries.ts';

export interface BalanceView extends Omit<CloseContext, 'answered'> {
  /** How many of the lines are not at zero. */
  readonly open: number;
  /** What came in that is nobody's purchase. */
  readonly takings: TakingSums;
}

export function balanceView(book: Book, sale: SaleRow): BalanceView {
  const closing = closingFacts(book, sale.id);
  const lines = closingLines(closing);
  const unfinished = unfinishedOf(closing, lines);
  const takings = takingSums(closing.facts.takings);
  return { lines, open: lines.filter(isOpenLine).length, drawerOpen: closing.drawerOpen, unfinished, takings };
}

/** What the association keeps of a sale beside the sale before it. `drawnOn` is an ISO 8601 date. */
export function revenueOfSale(book: Book, sale: SaleRow, drawnOn: string): ListPaper {
  const before = saleBefore(book, sale);
  const facts = saleFacts(book, sale.id);
  const revenueBefore = (id: number) => revenueOf(saleFacts(book, id), drawerOverShort(book, id));
  const goodsNames = new Map(facts.goods.map(({ goods, name }) => [goods, name]));
  return revenuePaper(
    paperGround(book, sale, drawnOn),
    { goodsNames, ...saleRevenue(facts, drawerOverShort(book, sale.id)) },
    before ? { heldOn: before.heldOn, revenue: revenueBefore(before.id) } : null,
  );
}

/** What the drawer of a sale was over, less what it was short. */
export function drawerOverShort(book: Book, saleId: number): Cents {
  return overShortOf({ drawer: drawerEntries(book, saleId), moves: drawerMoves(book, saleId) });
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

export interface ClosingContext extends ClosingFacts {
  readonly drawerOpen: boolean;
}

/** `facts` may be given where they were read already. */
export function closingFacts(book: Book, saleId: number, facts: SaleFacts = saleFacts(book, saleId)): ClosingContext {
  const drawer = drawerEntries(book, saleId);
  // Whether a seller waits for their buyers' money closes no sale, and takes long to find out.
  const sellers = payoutSellers(book, { id: saleId, sellersWait: false }, facts);
  const sheets = sellers.flatMap(({ sellerNo, issued }) =>
    issued ? [[sellerNo, { number: issued.number, totals: issued.sheet.totals }] as const] : [],
  );
  const invoices = invoiceStates(book, saleId, null);
  const oldInvoices = [...invoices].filter(([, { stillTrue }]) => !stillTrue).map(([buyerNo]) => buyerNo);
  const unpaid = sellers.filter(({ accounts }) => accounts.some(({ owingCents }) => owingCents > 0));
  const handed = [...newestHandovers(book, saleId).values()].filter(({ kind }) => kind === 'handed');
  return {
    ...{ facts, drawer, moves: drawerMoves(book, saleId), drawerOpen: isOpen(drawer), sheets: new Map(sheets) },
    ...{ invoices, oldInvoices: new Set(oldInvoices) },
    oldSheets: new Set(sellers.filter(({ changed }) => changed).map(({ sellerNo }) => sellerNo)),
    handed: new Map(handed.map(({ lotNo, buyerNo }) => [lotNo, buyerNo])),
    unpaid: new Set(unpaid.map(({ sellerNo }) => sellerNo)),
  };
}

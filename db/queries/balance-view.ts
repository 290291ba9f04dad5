/** The balance of a sale, what the association keeps of it, and its closings, as the treasurer's screens show them. */
import { and, asc, eq, sql } from 'drizzle-orm';
import { type Kept, keptOf, keptOfSale as sumsOf } from '#lib/closing/kept.ts';
import { keptPaper } from '#lib/closing/kept-paper.ts';
import type { ClosingLine } from '#lib/closing/line.ts';
import { closingLines } from '#lib/closing/lines.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import type { Book } from '../open.ts';
import { buyer, closing, particulars } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { saleBefore } from './afterwards.ts';
import { closingFacts } from './closing-facts.ts';
import type { SaleRow } from './find.ts';
import { paperGround } from './paper-lots.ts';
import { saleFacts } from './sale-facts.ts';

const given = sql.placeholder;

export interface BalanceView {
  readonly lines: readonly ClosingLine[];
  /** How many of them are not at zero. */
  readonly open: number;
  readonly drawerOpen: boolean;
}

export function balanceView(book: Book, sale: SaleRow): BalanceView {
  const facts = closingFacts(book, sale.id);
  const lines = closingLines(facts);
  const open = lines.filter(({ difference }) => difference !== 0).length;
  return { lines, open, drawerOpen: facts.drawerOpen };
}

/** What the association keeps of a sale beside the sale before it. `drawnOn` is an ISO 8601 date. */
export function keptOfSale(book: Book, sale: SaleRow, drawnOn: string): ListPaper {
  const before = saleBefore(book, sale);
  const facts = saleFacts(book, sale.id);
  const goodsNames = new Map(facts.goods.map(({ goods, name }) => [goods, name]));
  return keptPaper(
    paperGround(book, sale, drawnOn),
    { goodsNames, ...sumsOf(facts) },
    before ? { heldOn: before.heldOn, kept: keptBefore(book, before) } : null,
  );
}

function keptBefore(book: Book, before: SaleRow): Kept {
  return keptOf(saleFacts(book, before.id));
}

export interface Closing {
  readonly closingId: number;
  readonly kind: 'closed' | 'reopened';
  readonly reason: string;
  readonly worker: string;
  readonly at: string;
  /** Null where the sale was opened again. */
  readonly report: ListPaper | null;
}

const findClosings = statement(({ db }) =>
  db
    .select()
    .from(closing)
    .where(eq(closing.saleId, given('saleId')))
    .orderBy(asc(closing.id))
    .prepare(),
);

/** When a sale was closed and opened again, by whom, and the report of each closing; the oldest first. */
export function closingsOf(book: Book, saleId: number): Closing[] {
  return findClosings(book)
    .all({ saleId })
    .map(({ id: closingId, kind, reason, worker, at, model }) => {
      const report = model === null ? null : (JSON.parse(model) as ListPaper);
      return { closingId, kind, reason, worker, at, report };
    });
}

const findNames = statement(({ db }) =>
  db
    .select({ buyerNo: buyer.buyerNo, name: particulars.name })
    .from(buyer)
    .leftJoin(particulars, and(eq(particulars.saleId, buyer.saleId), eq(particulars.personId, buyer.personId)))
    .where(eq(buyer.saleId, given('saleId')))
    .prepare(),
);

/** The name of each buyer of a sale by number, as it stood there. */
export function namesOfBuyers(book: Book, saleId: number): Map<number, string> {
  return new Map(
    findNames(book)
      .all({ saleId })
      .map(({ buyerNo, name }) => [buyerNo, name ?? '']),
  );
}

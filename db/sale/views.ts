/** How far a sale has come, in figures and words, for the sale's page. */
import { and, count, eq, isNull, type SQL, sql } from 'drizzle-orm';
import { countBy, type GoodsRow, type SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { howManyLots } from '#db/lot/papers.ts';
import { countHeld } from '#db/lot/queries.ts';
import { type Glance, glance } from '#db/outcome/called.ts';
import { bid, buyer, invoice, lot, outcome, seller, settlement, tag } from '#db/schema/index.ts';
import { recordOf, typedOf } from '#lib/field/fields.ts';
import { decideGoodsOpen, decideTermsOpen, type GoodsSoFar, type SoFar } from '#lib/sale/amend.ts';
import type { Stage } from '#lib/sale/facts.ts';
import { STAGES } from '#lib/sale/stage.ts';
import { termsInWords } from '#lib/sale/terms.ts';
import { RATE_FIELDS, SALE_FIELDS, type SaleAsTyped, TERM_FIELDS } from '#lib/sale/terms-fields.ts';
import { goodsOf, goodsRowsOf, saleOfRow } from './facts.ts';
import { movesStations } from './queries.ts';

export interface SaleView extends Omit<Glance, 'pace'> {
  readonly terms: readonly string[];
  readonly sellers: number;
  readonly buyers: number;
  readonly lots: number;
  readonly pieces: number;
  readonly onHold: number;
  /** What each stage would do to the stations, as a sentence; empty where they stay. */
  readonly moves: Readonly<Record<Stage, string>>;
}

const countLots = query(({ db }) =>
  db
    .select({ lots: count(), pieces: sql<number>`coalesce(sum(${lot.count}), 0)` })
    .from(lot)
    .where(equals(lot.saleId, 'saleId')),
);
const countSellers = countBy(seller, seller.saleId);
const countBuyers = countBy(buyer, buyer.saleId);
const countSheets = countBy(settlement, settlement.saleId);
const countInvoices = countBy(invoice, invoice.saleId);
const countLotsOfGoods = countBy(lot, lot.goodsId);

export function saleView(book: Book, sale: SaleRow): SaleView {
  const { id: saleId } = sale;
  const { lots, pieces } = countLots(book).get({ saleId }) ?? { lots: 0, pieces: 0 };
  const { pace: _, ...soFar } = glance(book, saleId, lots);
  return {
    terms: termsInWords(saleOfRow(book, sale), goodsOf(book, saleId)),
    ...{ lots, pieces, ...soFar, onHold: countHeld(book, sale) },
    sellers: countSellers(book, saleId),
    buyers: countBuyers(book, saleId),
    moves: recordOf(STAGES, (stage) => movesStations(book, sale, stage)),
  };
}

export interface TermsView {
  /** Why nothing is changed any more, in a sentence; null while it may be. */
  readonly stands: string | null;
  readonly typed: SaleAsTyped;
  readonly overrides: readonly { readonly goods: string; readonly member: string; readonly guest: string }[];
  readonly goods: readonly Pick<GoodsRow, 'goods' | 'name'>[];
}

export function termsView(book: Book, row: SaleRow): TermsView {
  const { terms, ...day } = saleOfRow(book, row);
  const { commission, commissionOverrides, ...fees } = terms;
  return {
    stands: whyItStands(book, row),
    typed: {
      ...typedOf(SALE_FIELDS, day),
      ...typedOf(RATE_FIELDS, commission),
      ...typedOf(TERM_FIELDS, fees),
    },
    overrides: Object.entries(commissionOverrides).map(([code, rates]) => ({ goods: code, ...rates })),
    goods: goodsRowsOf(book, row.id),
  };
}

function whyItStands(book: Book, row: SaleRow): string | null {
  const open = decideTermsOpen(saleSoFar(book, row), REASON);
  return open.ok ? null : open.message;
}

/** Why no goods are added or changed any more, in a sentence; null while they may be. */
export function whyGoodsStand(row: SaleRow): string | null {
  const open = decideGoodsOpen(row, REASON);
  return open.ok ? null : open.message;
}

/** A reason is asked for when something is changed, and not before. */
const REASON = 'asked later';

export function saleSoFar(book: Book, { id, stage }: SaleRow): SoFar {
  return {
    stage,
    issued: countSheets(book, id) + countInvoices(book, id) > 0,
    lots: howManyLots(book, id),
    called: countOfLots(book, outcome, eq(lot.saleId, id)) + countOfLots(book, bid, eq(lot.saleId, id)),
  };
}

/** How many lots, tags and outcomes there are of goods. */
export function goodsSoFar(book: Book, goodsId: number): GoodsSoFar {
  const own = eq(lot.goodsId, goodsId);
  const uncounted = book.db
    .select({ n: count() })
    .from(lot)
    .where(and(own, isNull(lot.count)))
    .get();
  return {
    lots: countLotsOfGoods(book, goodsId),
    uncounted: uncounted?.n ?? 0,
    tags: countOfLots(book, tag, own),
    called: countOfLots(book, outcome, own),
  };
}

/** How many rows of a table belong to these lots. */
function countOfLots(book: Book, table: typeof outcome | typeof bid | typeof tag, which: SQL): number {
  const rows = book.db.select({ n: count() }).from(table).innerJoin(lot, eq(lot.id, table.lotId));
  return rows.where(which).get()?.n ?? 0;
}

/** How far a sale has come, in figures and words, for the sale's page. */
import { count, eq, sql } from 'drizzle-orm';
import { termsInWords } from '#lib/terms.ts';
import type { Book } from '../open.ts';
import { buyer, lot, seller } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { glance } from './called-lots.ts';
import type { SaleRow } from './find.ts';
import { countHeld } from './intake-lots.ts';
import { goodsOf, saleOfRow } from './sale-facts.ts';
import { saleToLeave } from './sales.ts';

const given = sql.placeholder;

export interface SaleView {
  readonly terms: readonly string[];
  readonly sellers: number;
  readonly buyers: number;
  readonly lots: number;
  readonly pieces: number;
  readonly onHold: number;
  readonly sold: number;
  readonly passed: number;
  readonly withdrawn: number;
  /** Lots still to be called. */
  readonly left: number;
  /** The sale under way that every station would leave for this one, were it under way too; null where none would. */
  readonly leaves: string | null;
  /** What the hammer brought so far, with commas between the thousands. */
  readonly total: string;
}

const countLots = statement(({ db }) =>
  db
    .select({ lots: count(), pieces: sql<number>`coalesce(sum(${lot.count}), 0)` })
    .from(lot)
    .where(eq(lot.saleId, given('saleId')))
    .prepare(),
);
const countSellers = statement(({ db }) =>
  db
    .select({ n: count() })
    .from(seller)
    .where(eq(seller.saleId, given('saleId')))
    .prepare(),
);
const countBuyers = statement(({ db }) =>
  db
    .select({ n: count() })
    .from(buyer)
    .where(eq(buyer.saleId, given('saleId')))
    .prepare(),
);

export function saleView(book: Book, sale: SaleRow): SaleView {
  const { id: saleId } = sale;
  const { lots, pieces } = countLots(book).get({ saleId }) ?? { lots: 0, pieces: 0 };
  const { sold, passed, withdrawn, total, left } = glance(book, saleId, lots);
  return {
    terms: termsInWords(saleOfRow(book, sale), goodsOf(book, saleId)),
    ...{ lots, pieces, sold, passed, withdrawn, left, total, onHold: countHeld(book, sale) },
    sellers: countSellers(book).get({ saleId })?.n ?? 0,
    buyers: countBuyers(book).get({ saleId })?.n ?? 0,
    leaves: saleToLeave(book, sale)?.name ?? null,
  };
}

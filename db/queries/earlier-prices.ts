/**
 * What the same goods brought at the newest earlier sale of the book.
 * A closed sale keeps its prices until somebody reopens it, which changes its row: so its ranges are kept in memory.
 */
import { and, eq, isNull, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type { By } from '#lib/facts.ts';
import { cents } from '#lib/money.ts';
import type { PriceBounds } from '#lib/usual-price.ts';
import type { Book } from '../open.ts';
import { goods, lot, outcome } from '../schema/index.ts';
import { goodsById, type LotRow, type SaleRow } from './find.ts';

const given = sql.placeholder;
const later = alias(outcome, 'later');

export interface EarlierPrices extends PriceBounds {
  readonly season: string;
}

type Kept = Map<string, EarlierPrices | null>;
const keptFor = new WeakMap<Book, Kept>();

/** The range of the newest earlier sale in which these goods were sold by the same measure; null where there is none. */
export function earlierPrices(
  book: Book,
  thisSale: SaleRow,
  row: Pick<LotRow, 'goodsId' | 'by'>,
): EarlierPrices | null {
  const code = goodsById(book, row.goodsId)?.goods;
  if (code === undefined) return null;
  for (const earlier of earlierSales(book, thisSale)) {
    const range = pricesAt(book, earlier, { code, by: row.by });
    if (range) return range;
  }
  return null;
}

/** What of an earlier sale is asked: every entry at the Block asks it of each of them. */
type EarlierSale = Pick<SaleRow, 'id' | 'season' | 'stage' | 'line'>;

function earlierSales(book: Book, { heldOn }: SaleRow): EarlierSale[] {
  const find = book.prepared('earlier sales', () =>
    book.sqlite.prepare<[string], EarlierSale>(
      'SELECT id, season, stage, line FROM sale WHERE held_on < ? ORDER BY held_on DESC, id DESC',
    ),
  );
  return find.all(heldOn);
}

interface Kind {
  readonly code: string;
  readonly by: By;
}

function pricesAt(book: Book, at: EarlierSale, kind: Kind): EarlierPrices | null {
  if (at.stage !== 'closed') return readPrices(book, at, kind);
  const kept: Kept = keptFor.get(book) ?? new Map();
  keptFor.set(book, kept);
  const key = JSON.stringify([at.id, at.line, kind.code, kind.by]);
  const known = kept.get(key);
  if (known !== undefined) return known;
  const range = readPrices(book, at, kind);
  kept.set(key, range);
  return range;
}

function readPrices(book: Book, { id: saleId, season }: EarlierSale, { code, by }: Kind): EarlierPrices | null {
  const find = book.prepared('prices of goods at a sale', (db) =>
    db
      .select({
        low: sql<number | null>`min(${outcome.priceCents})`,
        high: sql<number | null>`max(${outcome.priceCents})`,
      })
      .from(lot)
      .innerJoin(goods, eq(goods.id, lot.goodsId))
      .innerJoin(outcome, eq(outcome.lotId, lot.id))
      .leftJoin(later, eq(later.replacesId, outcome.id))
      .where(
        and(
          ...[eq(lot.saleId, given('saleId')), eq(goods.goods, given('code')), eq(lot.by, given('by'))],
          ...[eq(outcome.kind, 'sold'), isNull(later.id)],
        ),
      )
      .prepare(),
  );
  const found = find.get({ saleId, code, by });
  if (found?.low == null || found.high == null) return null;
  return { season, lowCents: cents(found.low), highCents: cents(found.high) };
}

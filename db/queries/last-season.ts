/** What goods brought at earlier sales of the book, for the line as it is typed and for the questions at the Block. */
import { and, desc, eq, lt, sql } from 'drizzle-orm';
import type { By } from '#lib/facts.ts';
import { unitInWords } from '#lib/lot-words.ts';
import { cents, showMoney } from '#lib/money.ts';
import { type Measure, type PriceRow, pricedLot, priceRows } from '#lib/price-table.ts';
import type { PriceBounds } from '#lib/usual-price.ts';
import type { Book } from '../open.ts';
import { goods, lot, lotNow, sale, standingOutcome as standing } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { goodsById, type LotRow, type SaleRow } from './find.ts';

const given = sql.placeholder;

/** The rows of the newest earlier sale that is closed, all sections of goods together. */
export function lastSeason(book: Book, thisSale: SaleRow): readonly PriceRow[] {
  const before = newestClosed(book).get({ heldOn: thisSale.heldOn });
  if (!before) return [];
  const sold = findSold(book).all({ saleId: before.id });
  return priceRows(
    sold.map(({ priceCents, ...one }) => pricedLot({ ...one, section: '' }, cents(priceCents ?? 0), before.season)),
  );
}

const newestClosed = statement(({ db }) =>
  db
    .select({ id: sale.id, season: sale.season })
    .from(sale)
    .where(and(eq(sale.stage, 'closed'), lt(sale.heldOn, given('heldOn'))))
    .orderBy(desc(sale.heldOn), desc(sale.id))
    .limit(1)
    .prepare(),
);

const findSold = statement(({ db }) => {
  const { by, count, weightThousandths, priceCents } = lotNow;
  return db
    .select({ goods: lotNow.goods, by, count, weightThousandths, priceCents })
    .from(lotNow)
    .where(and(eq(lotNow.saleId, given('saleId')), sql`${lotNow.outcome} = 'sold'`))
    .prepare();
});

/** What goods brought, in words, by what a price stands for; a lot sold by the lot is compared by the piece. */
export function broughtInWords(rows: readonly PriceRow[], goods: string): Readonly<Record<By, string>> {
  const words = (measure: Measure) => {
    const row = rows.find((one) => one.goods === goods && one.measure === measure);
    return row ? rowInWords(row) : '';
  };
  const piece = words('piece');
  return { piece, lot: piece, lb: words('lb'), oz: words('oz') };
}

function rowInWords({ season, lowCents, highCents, medianCents, measure, quantity, lots }: PriceRow): string {
  const unit = unitInWords(measure);
  const many =
    measure === 'piece'
      ? `${quantity} sold`
      : `${quantity} ${measure} sold in ${lots === 1 ? '1 lot' : `${lots} lots`}`;
  const range = `${showMoney(lowCents)} to ${showMoney(highCents)} ${unit}, median ${showMoney(medianCents)}`;
  return `${season}: ${range}, ${many}`;
}

export interface EarlierPrices extends PriceBounds {
  readonly season: string;
}

/** The range of the newest earlier sale in which these goods were sold by the same measure; null where there is none. */
export function earlierPrices(
  book: Book,
  { heldOn }: SaleRow,
  { goodsId, by }: Pick<LotRow, 'goodsId' | 'by'>,
): EarlierPrices | null {
  const code = goodsById(book, goodsId)?.goods;
  if (code === undefined) return null;
  for (const { id: saleId, season } of earlierSales(book).all({ heldOn })) {
    const found = findRange(book).get({ saleId, code, by });
    if (found?.low == null || found.high == null) continue;
    return { season, lowCents: cents(found.low), highCents: cents(found.high) };
  }
  return null;
}

const earlierSales = statement(({ db }) =>
  db
    .select({ id: sale.id, season: sale.season })
    .from(sale)
    .where(lt(sale.heldOn, given('heldOn')))
    .orderBy(desc(sale.heldOn), desc(sale.id))
    .prepare(),
);

/** From the goods on, so that no more outcomes are looked up than of their lots. */
const findRange = statement(({ db }) =>
  db
    .select({
      low: sql<number | null>`min(${standing.priceCents})`,
      high: sql<number | null>`max(${standing.priceCents})`,
    })
    .from(goods)
    .crossJoin(lot)
    .crossJoin(standing)
    .where(
      and(
        ...[eq(goods.saleId, given('saleId')), eq(goods.goods, given('code')), eq(lot.goodsId, goods.id)],
        ...[eq(lot.by, given('by')), eq(standing.lotId, lot.id), eq(standing.kind, 'sold')],
      ),
    )
    .prepare(),
);

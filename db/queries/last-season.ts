/**
 * What each kind of goods brought at the newest earlier sale of the book, for the line as it is typed.
 * A closed sale stays as it is until somebody reopens it, which changes its row: so its table is kept in memory.
 */
import { and, desc, eq, lt, sql } from 'drizzle-orm';
import type { By } from '#lib/facts.ts';
import { unitInWords } from '#lib/lot-words.ts';
import { showMoney } from '#lib/money.ts';
import { type Measure, type PriceRow, pricedLots, priceRows } from '#lib/price-table.ts';
import type { Book } from '../open.ts';
import { sale } from '../schema/index.ts';
import type { SaleRow } from './find.ts';
import { saleFacts } from './sale-facts.ts';

const kept = new WeakMap<Book, { readonly key: string; readonly rows: readonly PriceRow[] }>();

/** The rows of the newest earlier sale that is closed, all sections of goods together. */
export function lastSeason(book: Book, thisSale: SaleRow): readonly PriceRow[] {
  const before = newestClosedBefore(book, thisSale.heldOn);
  if (!before) return [];
  const key = `${before.id} ${before.line}`;
  const known = kept.get(book);
  if (known?.key === key) return known.rows;
  const rows = priceRows(pricedLots(saleFacts(book, before.id)).map((lot) => ({ ...lot, section: '' })));
  kept.set(book, { key, rows });
  return rows;
}

function newestClosedBefore(book: Book, heldOn: string): SaleRow | undefined {
  const find = book.prepared('newest closed sale before', (db) =>
    db
      .select()
      .from(sale)
      .where(and(eq(sale.stage, 'closed'), lt(sale.heldOn, sql.placeholder('heldOn'))))
      .orderBy(desc(sale.heldOn), desc(sale.id))
      .limit(1)
      .prepare(),
  );
  return find.get({ heldOn });
}

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

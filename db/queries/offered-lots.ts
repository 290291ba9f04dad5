/**
 * The called lots of the sales of one season, as the price ranges take them: one read a kind of goods for lots, one for
 * people. Plain SQL, and rows as arrays: thirty seasons of 5,000 lots are read while somebody waits for a page.
 */
import { linked } from '#lib/businesses.ts';
import type { By } from '#lib/facts.ts';
import { groupBy } from '#lib/group.ts';
import type { Form } from '#lib/lot/fields.ts';
import { cents } from '#lib/money.ts';
import type { OfferedLot } from '#lib/price-range.ts';
import { pricedLot } from '#lib/price-table.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import type { PriceListRowOfBook } from './price-lists.ts';

type Sales = readonly Pick<SaleRow, 'id' | 'season'>[];

/**
 * Gives the sold and passed lots of one kind of goods. Withdrawn lots were never offered. Who counts as one seller
 * follows from all sales of the season, whatever they sold there, and is found out once.
 */
export function offeredOfGoods(book: Book, sales: Sales): (code: string) => OfferedLot[] {
  let businessOf: ReadonlyMap<number, number> | undefined;
  return (code) => {
    const called = sales.flatMap(({ id, season }) => calledRows(book, id, code).map((row) => ({ row, season })));
    if (called.length > 0) businessOf ??= businessesOf(book, sales);
    return called.map(({ row, season }) => offeredLot(row, season, businessOf ?? new Map()));
  };
}

type CalledRow = [
  sellerId: number,
  goods: string,
  by: By,
  count: number | null,
  weightThousandths: number | null,
  section: string,
  size: string,
  grade: string,
  form: Form,
  priceCents: number | null,
  buyerPersonId: number | null,
];

function offeredLot(row: CalledRow, season: string, businessOf: ReadonlyMap<number, number>): OfferedLot {
  const [sellerId, goods, by, count, weightThousandths, section, size, grade, form, priceCents, buyer] = row;
  const measure = by === 'lot' ? 'piece' : by;
  const place = { goods, measure, section, size, grade, form, seller: businessOf.get(sellerId) ?? 0 } as const;
  // Only a sold lot has a price: the table's own check says so.
  if (priceCents === null) return { ...place, buyer: null, priced: null };
  const priced = pricedLot({ goods, section, by, count, weightThousandths }, cents(priceCents), season);
  return { ...place, buyer, priced };
}

// A lot's one outcome that no other replaces; a reopened lot has none of these kinds. CROSS JOIN keeps SQLite to the
// order in which they stand, so that outcomes are looked up for the goods that were asked for and for no other lot.
const CALLED = `
  SELECT lot.seller_id, goods.goods, lot.by, lot.count, lot.weight_thousandths,
    lot.section, lot.size, lot.grade, lot.form, outcome.price_cents, buyer.person_id
  FROM lot CROSS JOIN goods ON goods.id = lot.goods_id
    CROSS JOIN outcome ON outcome.lot_id = lot.id
    LEFT JOIN buyer ON buyer.id = outcome.buyer_id
  WHERE lot.goods_id = (SELECT id FROM goods WHERE sale_id = :saleId AND goods = :code)
    AND outcome.kind IN ('sold', 'passed')
    AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)`;

// A sale has its own goods, so that these name the sale as well.
function calledRows(book: Book, saleId: number, code: string): CalledRow[] {
  const find = book.prepared('offered lots', () => book.sqlite.prepare(CALLED).raw());
  return find.all({ saleId, code }) as CalledRow[];
}

const PEOPLE = `
  SELECT seller.id, partner.person_id FROM seller JOIN partner ON partner.seller_id = seller.id
  WHERE seller.sale_id = ? ORDER BY seller.id, partner.position`;

/** Which seller numbers of a season are one business, because they share a person. */
function businessesOf(book: Book, sales: Sales): Map<number, number> {
  const find = book.prepared('people of sellers', () => book.sqlite.prepare(PEOPLE).raw());
  const rows = sales.flatMap(({ id }) => find.all(id) as [number, number][]);
  const bySeller = groupBy(rows, ([sellerId]) => sellerId);
  return linked(new Map([...bySeller].map(([sellerId, own]) => [sellerId, own.map(([, personId]) => personId)])));
}

/** The rows of a plain price list, of which nobody knows who sold or bought them. */
export function listedLots(rows: readonly PriceListRowOfBook[]): OfferedLot[] {
  return rows.map(({ season, goods, section, size, grade, count, priceCents }) => {
    const lot = { goods, section, by: 'piece', count, weightThousandths: null } as const;
    const place = { goods, measure: 'piece', section, size, grade, form: 'put_up', seller: null, buyer: null } as const;
    return { ...place, priced: pricedLot(lot, cents(priceCents), season) };
  });
}

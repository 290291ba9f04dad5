/**
 * The called lots of the sales of one season, as the price ranges take them: one read a kind of goods for lots, one for
 * people.
 */
import { and, asc, eq, inArray } from 'drizzle-orm';
import type { SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { onBoard } from '#db/outcome/board-view.ts';
import { buyer, goods, lot, partner, seller, standingOutcome as standing } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import type { FurForm } from '#lib/lot/fields.ts';
import type { Cents } from '#lib/money/money.ts';
import { linked, type OfferedLot } from '#lib/price/range.ts';
import { pricedLot } from '#lib/price/table.ts';
import { groupBy, once } from '#lib/result/text.ts';
import type { By } from '#lib/sale/facts.ts';
import type { PriceListRowOfBook } from './lists.ts';

type Sales = readonly Pick<SaleRow, 'id' | 'season' | 'stage'>[];

/**
 * Gives the sold and passed lots of one kind of goods. Withdrawn lots were never offered. Who counts as one seller
 * follows from all sales of the season, whatever they sold there, and is found out once.
 */
export function offeredOfGoods(book: Book, sales: Sales): (code: string) => OfferedLot[] {
  const businessOf = once(() => businessesOf(book, sales));
  const aloud = once(() => new Set(sales.flatMap((sale) => onBoard(book, sale).map(({ lotId }) => lotId))));
  return (code) => {
    const called = sales.flatMap(({ id, season }) => calledRows(book, id, code).map((row) => ({ row, season })));
    return called.map(({ row, season }) => {
      const lot = offeredLot(row, season, businessOf());
      return aloud().has(row[0]) ? { ...lot, aloud: true } : lot;
    });
  };
}

type CalledRow = [
  lotId: number,
  sellerId: number,
  goods: string,
  by: By,
  count: number | null,
  weightThousandths: number | null,
  section: string,
  size: string,
  grade: string,
  form: FurForm,
  priceCents: Cents | null,
  buyerPersonId: number | null,
];

function offeredLot(row: CalledRow, season: string, businessOf: ReadonlyMap<number, number>): OfferedLot {
  const [, sellerId, goods, by, count, weightThousandths, section, size, grade, form, priceCents, buyer] = row;
  const measure = by === 'lot' ? 'piece' : by;
  const place = { goods, measure, section, size, grade, form, seller: businessOf.get(sellerId) ?? 0 } as const;
  // Only a sold lot has a price: the table's own check says so.
  if (priceCents === null) return { ...place, buyer: null, priced: null };
  const priced = pricedLot({ goods, section, by, count, weightThousandths }, priceCents, season);
  return { ...place, buyer, priced };
}

/** From the goods on, so that no more outcomes are looked up than of their lots. A sale has its own goods. */
const findCalled = query(({ db }) =>
  db
    .select({
      ...{ lotId: lot.id, sellerId: lot.sellerId, goods: goods.goods },
      ...pick(lot, ['by', 'count', 'weightThousandths', 'section', 'size', 'grade', 'form']),
      ...{ priceCents: standing.priceCents, buyer: buyer.personId },
    })
    .from(goods)
    .crossJoin(lot)
    .crossJoin(standing)
    .leftJoin(buyer, eq(buyer.id, standing.buyerId))
    .where(
      and(
        ...[equals(goods.saleId, 'saleId'), equals(goods.goods, 'code'), eq(lot.goodsId, goods.id)],
        ...[eq(standing.lotId, lot.id), inArray(standing.kind, ['sold', 'passed'])],
      ),
    ),
);

/** Read as arrays, because thirty seasons of 5,000 lots are read while somebody waits for a page. */
function calledRows(book: Book, saleId: number, code: string): CalledRow[] {
  return findCalled(book).values({ saleId, code }) as CalledRow[];
}

const findPeople = query(({ db }) =>
  db
    .select({ sellerId: seller.id, personId: partner.personId })
    .from(seller)
    .innerJoin(partner, eq(partner.sellerId, seller.id))
    .where(equals(seller.saleId, 'saleId'))
    .orderBy(asc(seller.id), asc(partner.position)),
);

/** Which seller numbers of a season are one business, because they share a person. */
function businessesOf(book: Book, sales: Sales): Map<number, number> {
  const rows = sales.flatMap(({ id: saleId }) => findPeople(book).all({ saleId }));
  const bySeller = groupBy(rows, ({ sellerId }) => sellerId);
  return linked(new Map([...bySeller].map(([sellerId, own]) => [sellerId, own.map(({ personId }) => personId)])));
}

/** The rows of a plain price list, of which nobody knows who sold or bought them. */
export function listedLots(rows: readonly PriceListRowOfBook[]): OfferedLot[] {
  return rows.map(({ season, goods, section, size, grade, count, priceCents }) => {
    const lot = { goods, section, by: 'piece', count, weightThousandths: null } as const;
    const place = { goods, measure: 'piece', section, size, grade, form: 'put_up', seller: null, buyer: null } as const;
    return { ...place, priced: pricedLot(lot, priceCents, season) };
  });
}

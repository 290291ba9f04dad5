/** The called lots of the sales of one season, as the price ranges take them. One read a sale for lots, one for people. */
import { and, asc, eq, isNull, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { linked } from '#lib/businesses.ts';
import { cents } from '#lib/money.ts';
import type { OfferedLot } from '#lib/price-range.ts';
import { pricedLot } from '#lib/price-table.ts';
import type { Book } from '../open.ts';
import { buyer, goods, lot, outcome, partner, seller } from '../schema/index.ts';
import type { SaleRow } from './find.ts';

const given = sql.placeholder;
const later = alias(outcome, 'later');

/** Sold and passed lots. Withdrawn lots were never offered, and reopened ones are not called yet. */
export function offeredLots(book: Book, sales: readonly SaleRow[]): OfferedLot[] {
  const businessOf = linked(new Map(sales.flatMap((sale) => peopleOf(book, sale.id))));
  return sales.flatMap((sale) =>
    calledRows(book, sale.id).map((row) => offeredLot(row, sale.season, businessOf.get(row.sellerId) ?? 0)),
  );
}

type CalledRow = ReturnType<typeof calledRows>[number];

function offeredLot(row: CalledRow, season: string, business: number): OfferedLot {
  const { size, grade, section, goods: code, kind, priceCents, buyerPersonId } = row;
  const measure = row.by === 'lot' ? 'piece' : row.by;
  const place = { goods: code, measure, section, size, grade, seller: business };
  if (kind !== 'sold' || priceCents === null) return { ...place, buyer: null, priced: null };
  const priced = pricedLot(row, cents(priceCents), season);
  return { ...place, buyer: buyerPersonId, priced };
}

function calledRows(book: Book, saleId: number) {
  const find = book.prepared('offered lots', (db) =>
    db
      .select({
        ...{ sellerId: lot.sellerId, goods: goods.goods },
        ...{ by: lot.by, count: lot.count, weightThousandths: lot.weightThousandths },
        ...{ size: lot.size, grade: lot.grade, section: lot.section },
        ...{ kind: outcome.kind, priceCents: outcome.priceCents, buyerPersonId: buyer.personId },
      })
      .from(lot)
      .innerJoin(goods, eq(goods.id, lot.goodsId))
      .innerJoin(outcome, eq(outcome.lotId, lot.id))
      .leftJoin(later, eq(later.replacesId, outcome.id))
      .leftJoin(buyer, eq(buyer.id, outcome.buyerId))
      .where(and(eq(lot.saleId, given('saleId')), isNull(later.id), sql`${outcome.kind} IN ('sold', 'passed')`))
      .orderBy(asc(lot.id))
      .prepare(),
  );
  return find.all({ saleId });
}

/** The people behind each seller number of a sale. */
function peopleOf(book: Book, saleId: number): [sellerId: number, people: number[]][] {
  const find = book.prepared('people of sellers', (db) =>
    db
      .select({ sellerId: seller.id, personId: partner.personId })
      .from(seller)
      .innerJoin(partner, eq(partner.sellerId, seller.id))
      .where(eq(seller.saleId, given('saleId')))
      .orderBy(asc(seller.id), asc(partner.position))
      .prepare(),
  );
  const people = new Map<number, number[]>();
  for (const { sellerId, personId } of find.all({ saleId })) {
    const others = people.get(sellerId);
    if (others) others.push(personId);
    else people.set(sellerId, [personId]);
  }
  return [...people];
}

/** Dues that were taken of those behind a seller number, for the check-in table. */
import { and, asc, desc, eq, inArray, lt, ne, or, sql } from 'drizzle-orm';
import { QueryBuilder } from 'drizzle-orm/sqlite-core';
import type { PersonRow, SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { charge, liveDues, partner, payment, sale, seller } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import { cents, showMoney } from '#lib/money/money.ts';
import type { DuesHow } from '#lib/person/dues.ts';

const given = sql.placeholder;
const builder = new QueryBuilder();

export interface DuesTaken {
  readonly duesId: number;
  readonly personId: number;
  readonly amount: string;
  readonly how: DuesHow;
  /** ISO 8601 date to which they are paid. */
  readonly memberUntil: string;
  /** The names of earlier sales of theirs that are still open, and that these dues do not change. */
  readonly unchanged: readonly string[];
}

/** Charged to the number, or paid by one of its partners in their own name at this sale. */
const findTaken = query(({ db }) => {
  const ofNumber = builder.select({ id: partner.personId }).from(partner).where(equals(partner.sellerId, 'sellerId'));
  const atSale = builder.select({ id: seller.saleId }).from(seller).where(equals(seller.id, 'sellerId'));
  return db
    .select({
      duesId: liveDues.id,
      personId: liveDues.personId,
      amountCents: sql<number>`coalesce(${charge.amountCents}, ${payment.amountCents})`,
      how: sql<DuesHow>`coalesce(${charge.how}, ${payment.method})`,
      memberUntil: sql<string>`coalesce(${liveDues.memberUntil}, '')`,
    })
    .from(liveDues)
    .leftJoin(charge, eq(charge.id, liveDues.chargeId))
    .leftJoin(payment, eq(payment.id, liveDues.paymentId))
    .where(
      and(
        inArray(liveDues.personId, ofNumber),
        or(equals(charge.sellerId, 'sellerId'), inArray(payment.saleId, atSale)),
      ),
    )
    .orderBy(asc(liveDues.id));
});

/** Those that were not taken back, the oldest first. */
export function duesOfSeller(book: Book, thisSale: SaleRow, sellerId: number): DuesTaken[] {
  return findTaken(book)
    .all({ sellerId })
    .map(({ amountCents, ...row }) => ({
      ...row,
      amount: showMoney(cents(amountCents)),
      unchanged: earlierOpenSales(book, row.personId, thisSale),
    }));
}

const findEarlier = query(({ db }) =>
  db
    .selectDistinct(pick(sale, ['id', 'name', 'heldOn']))
    .from(partner)
    .innerJoin(seller, eq(seller.id, partner.sellerId))
    .innerJoin(sale, eq(sale.id, seller.saleId))
    .where(
      and(
        ...[equals(partner.personId, 'personId'), ne(sale.id, given('saleId'))],
        or(lt(sale.heldOn, given('heldOn')), eq(sale.stage, 'settling')),
        ne(sale.stage, 'closed'),
      ),
    )
    .orderBy(asc(sale.heldOn), asc(sale.id)),
);

/** The names of sales held before this one that are not closed and at which a person sells. */
export function earlierOpenSales(book: Book, personId: number, { id: saleId, heldOn }: SaleRow): string[] {
  const earlier = findEarlier(book).all({ personId, saleId, heldOn });
  return [...new Set(earlier.map(({ name }) => name))];
}

/** The newest dues that were not taken back, with the day of the sale at which they were taken. */
const findNewest = query(({ db }) =>
  db
    .select({ heldOn: sale.heldOn, line: liveDues.line })
    .from(liveDues)
    .leftJoin(charge, eq(charge.id, liveDues.chargeId))
    .leftJoin(seller, eq(seller.id, charge.sellerId))
    .leftJoin(payment, eq(payment.id, liveDues.paymentId))
    .innerJoin(sale, sql`${sale.id} = coalesce(${seller.saleId}, ${payment.saleId})`)
    .where(equals(liveDues.personId, 'personId'))
    .orderBy(desc(liveDues.id))
    .limit(1),
);

/**
 * The day of the sale at which the dues were taken that somebody's membership rests on, as an ISO 8601 date; null where
 * it rests on none, as after it was put right by hand.
 */
export function duesTakenOn(book: Book, { id, memberLine }: Pick<PersonRow, 'id' | 'memberLine'>): string | null {
  const newest = findNewest(book).get({ personId: id });
  return newest && newest.line === memberLine ? newest.heldOn : null;
}

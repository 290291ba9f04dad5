/** Dues that were taken behind a seller number, for the check-in table. */
import { and, asc, eq, isNull, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type { ChargeHow } from '#lib/facts.ts';
import { cents, showMoney } from '#lib/money.ts';
import type { Book } from '../open.ts';
import { charge, dues } from '../schema/index.ts';

const voiding = alias(dues, 'voiding');

export interface DuesTaken {
  readonly duesId: number;
  readonly personId: number;
  readonly amount: string;
  readonly how: ChargeHow;
  /** ISO 8601 date to which they are paid. */
  readonly memberUntil: string;
}

/** Those that were not taken back, the oldest first. */
export function duesOfSeller(book: Book, sellerId: number): DuesTaken[] {
  const find = book.prepared('dues of seller', (db) =>
    db
      .select({
        duesId: dues.id,
        personId: dues.personId,
        amountCents: charge.amountCents,
        how: charge.how,
        memberUntil: dues.memberUntil,
      })
      .from(dues)
      .innerJoin(charge, eq(charge.id, dues.chargeId))
      .leftJoin(voiding, eq(voiding.voidsId, dues.id))
      .where(and(eq(charge.sellerId, sql.placeholder('sellerId')), isNull(dues.voidsId), isNull(voiding.id)))
      .orderBy(asc(dues.id))
      .prepare(),
  );
  return find.all({ sellerId }).map(({ amountCents, memberUntil, ...row }) => ({
    ...row,
    amount: showMoney(cents(amountCents)),
    memberUntil: memberUntil ?? '',
  }));
}

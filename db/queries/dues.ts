/** Dues that were taken of those behind a seller number, for the check-in table. */
import type { DuesHow } from '#lib/dues.ts';
import { cents, showMoney } from '#lib/money.ts';
import type { Book } from '../open.ts';

export interface DuesTaken {
  readonly duesId: number;
  readonly personId: number;
  readonly amount: string;
  readonly how: DuesHow;
  /** ISO 8601 date to which they are paid. */
  readonly memberUntil: string;
}

interface Row extends Omit<DuesTaken, 'amount'> {
  readonly amountCents: number;
}

// Charged to the number, or paid by one of its partners in their own name at this sale.
const TAKEN = `
  SELECT dues.id AS duesId, dues.person_id AS personId, coalesce(charge.amount_cents, payment.amount_cents) AS amountCents,
    coalesce(charge.how, payment.method) AS how, coalesce(dues.member_until, '') AS memberUntil
  FROM dues LEFT JOIN charge ON charge.id = dues.charge_id LEFT JOIN payment ON payment.id = dues.payment_id
  WHERE dues.person_id IN (SELECT person_id FROM partner WHERE seller_id = :sellerId)
    AND (charge.seller_id = :sellerId OR payment.sale_id = (SELECT sale_id FROM seller WHERE id = :sellerId))
    AND dues.voids_id IS NULL AND NOT EXISTS (SELECT 1 FROM dues back WHERE back.voids_id = dues.id)
  ORDER BY dues.id`;

/** Those that were not taken back, the oldest first. */
export function duesOfSeller(book: Book, sellerId: number): DuesTaken[] {
  const find = book.prepared('dues of seller', () => book.sqlite.prepare<{ sellerId: number }, Row>(TAKEN));
  return find.all({ sellerId }).map(({ amountCents, ...row }) => ({ ...row, amount: showMoney(cents(amountCents)) }));
}

/** Dues that were taken of those behind a seller number, for the check-in table. */
import type { DuesHow } from '#lib/dues.ts';
import { cents, showMoney } from '#lib/money.ts';
import type { Book } from '../open.ts';
import type { PersonRow, SaleRow } from './find.ts';

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

interface Row extends Omit<DuesTaken, 'amount' | 'unchanged'> {
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
export function duesOfSeller(book: Book, sale: SaleRow, sellerId: number): DuesTaken[] {
  const find = book.prepared('dues of seller', () => book.sqlite.prepare<{ sellerId: number }, Row>(TAKEN));
  return find.all({ sellerId }).map(({ amountCents, ...row }) => ({
    ...row,
    amount: showMoney(cents(amountCents)),
    unchanged: earlierOpenSales(book, row.personId, sale),
  }));
}

const EARLIER = `
  SELECT DISTINCT sale.name FROM partner JOIN seller ON seller.id = partner.seller_id JOIN sale ON sale.id = seller.sale_id
  WHERE partner.person_id = :personId AND sale.id <> :saleId AND sale.held_on < :heldOn AND sale.stage <> 'closed'
  ORDER BY sale.held_on, sale.id`;

/** The names of sales held before this one that are not closed and at which a person sells. */
export function earlierOpenSales(book: Book, personId: number, { id: saleId, heldOn }: SaleRow): string[] {
  const find = book.prepared('earlier open sales of person', () =>
    book.sqlite.prepare<{ personId: number; saleId: number; heldOn: string }, string>(EARLIER).pluck(),
  );
  return find.all({ personId, saleId, heldOn });
}

// The newest dues that were not taken back say to which day somebody is paid, unless that was put right by hand since.
const NEWEST = `
  SELECT sale.held_on AS heldOn, dues.member_until AS memberUntil
  FROM dues LEFT JOIN charge ON charge.id = dues.charge_id LEFT JOIN seller ON seller.id = charge.seller_id
  LEFT JOIN payment ON payment.id = dues.payment_id JOIN sale ON sale.id = coalesce(seller.sale_id, payment.sale_id)
  WHERE dues.person_id = :personId AND dues.voids_id IS NULL
    AND NOT EXISTS (SELECT 1 FROM dues back WHERE back.voids_id = dues.id)
  ORDER BY dues.id DESC LIMIT 1`;

/** The day of the sale at which the dues were taken that somebody's membership rests on, as an ISO 8601 date; null where it rests on none. */
export function duesTakenOn(book: Book, { id, memberUntil }: Pick<PersonRow, 'id' | 'memberUntil'>): string | null {
  const find = book.prepared('newest dues of person', () =>
    book.sqlite.prepare<{ personId: number }, { heldOn: string; memberUntil: string | null }>(NEWEST),
  );
  const newest = find.get({ personId: id });
  return newest && newest.memberUntil === memberUntil ? newest.heldOn : null;
}

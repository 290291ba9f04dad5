import { sql } from 'drizzle-orm';
import { type AnySQLiteColumn, check, index, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import type { Method } from '#lib/sale/facts.ts';
import { person } from './association.ts';
import { centsColumn, id, line, oneOf, references, wholeNumberColumn, words } from './columns.ts';
import { buyer, sale, seller } from './sale.ts';

/** Dues, an advance or an adjustment of one seller number. A row that voids another names it. */
export const charge = sqliteTable(
  'charge',
  {
    id: id(),
    sellerId: references('seller_id', () => seller.id),
    kind: text('kind').$type<'dues' | 'advance' | 'adjustment'>().notNull(),
    amountCents: centsColumn('amount_cents').notNull(),
    how: text('how').$type<'deducted' | 'cash'>().notNull(),
    note: words('note'),
    voidsId: integer('voids_id').references((): AnySQLiteColumn => charge.id),
    line: line(),
  },
  (t) => [
    index('charge_seller').on(t.sellerId),
    uniqueIndex('charge_voided_once').on(t.voidsId),
    oneOf('charge_kind', t.kind, ['dues', 'advance', 'adjustment']),
    oneOf('charge_how', t.how, ['deducted', 'cash']),
    wholeNumberColumn('charge_amount', t.amountCents),
  ],
);

/** Money that changed hands: in from a buyer or a seller, out to a seller's partner or back to a buyer. */
export const payment = sqliteTable(
  'payment',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    direction: text('direction').$type<'in' | 'out'>().notNull(),
    buyerId: integer('buyer_id').references(() => buyer.id),
    sellerId: integer('seller_id').references(() => seller.id),
    personId: integer('person_id').references(() => person.id),
    method: text('method').$type<Method>().notNull(),
    amountCents: centsColumn('amount_cents').notNull(),
    reference: words('reference'),
    paidAt: text('paid_at').notNull(),
    /** The other half of a set-off, which was recorded first: both are voided together. */
    otherHalfId: integer('other_half_id').references((): AnySQLiteColumn => payment.id),
    voidsId: integer('voids_id').references((): AnySQLiteColumn => payment.id),
    reason: words('reason'),
    line: line(),
  },
  (t) => [
    index('payment_sale').on(t.saleId),
    index('payment_buyer').on(t.buyerId),
    index('payment_seller').on(t.sellerId),
    uniqueIndex('payment_voided_once').on(t.voidsId),
    oneOf('payment_direction', t.direction, ['in', 'out']),
    oneOf('payment_method', t.method, ['cash', 'check', 'card', 'other', 'set_off', 'written_off', 'check_fee']),
    wholeNumberColumn('payment_amount', t.amountCents),
    check('payment_positive', sql`${t.amountCents} > 0`),
    // What a person pays under neither number is dues.
    check(
      'payment_one_party',
      sql`(${t.buyerId} IS NULL OR ${t.sellerId} IS NULL) AND coalesce(${t.buyerId}, ${t.sellerId}, ${t.personId}) IS NOT NULL`,
    ),
  ],
);

/** Money that came in and is nobody's purchase: a raffle, the door, a gift. A row that takes another back names it. */
export const taking = sqliteTable(
  'taking',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    kind: text('kind').$type<'raffle' | 'door' | 'donation' | 'food' | 'other'>().notNull(),
    method: text('method').$type<'cash' | 'check' | 'card' | 'other'>().notNull(),
    amountCents: centsColumn('amount_cents').notNull(),
    note: words('note'),
    at: text('at').notNull(),
    voidsId: integer('voids_id').references((): AnySQLiteColumn => taking.id),
    reason: words('reason'),
    line: line(),
  },
  (t) => [
    index('taking_sale').on(t.saleId),
    uniqueIndex('taking_voided_once').on(t.voidsId),
    oneOf('taking_kind', t.kind, ['raffle', 'door', 'donation', 'food', 'other']),
    oneOf('taking_method', t.method, ['cash', 'check', 'card', 'other']),
    wholeNumberColumn('taking_amount', t.amountCents),
    check('taking_positive', sql`${t.amountCents} > 0`),
  ],
);

/**
 * What dues did to a membership: the day to which they were paid before and after, and the money that bought it, which
 * is a charge of a seller number, or a payment of the person under no number. A row that takes dues back names them.
 */
export const dues = sqliteTable(
  'dues',
  {
    id: id(),
    personId: references('person_id', () => person.id),
    chargeId: integer('charge_id').references(() => charge.id),
    paymentId: integer('payment_id').references(() => payment.id),
    /** ISO 8601 dates; null for somebody who was, or is again, no member. */
    memberUntilBefore: text('member_until_before'),
    memberUntil: text('member_until'),
    /** The log line that had brought the membership before. */
    memberLineBefore: integer('member_line_before').notNull(),
    voidsId: integer('voids_id').references((): AnySQLiteColumn => dues.id),
    reason: words('reason'),
    line: line(),
  },
  (t) => [
    index('dues_person').on(t.personId),
    uniqueIndex('dues_charge').on(t.chargeId),
    uniqueIndex('dues_payment').on(t.paymentId),
    uniqueIndex('dues_voided_once').on(t.voidsId),
    check('dues_one_way', sql`(${t.chargeId} IS NULL) <> (${t.paymentId} IS NULL)`),
  ],
);

/** A buyer's bill as it was handed over: the finished model, frozen. */
export const invoice = sqliteTable(
  'invoice',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    number: integer('number').notNull(),
    buyerId: references('buyer_id', () => buyer.id),
    model: text('model').notNull(),
    correctsId: integer('corrects_id').references((): AnySQLiteColumn => invoice.id),
    issuedAt: text('issued_at').notNull(),
    line: line(),
  },
  (t) => [
    uniqueIndex('invoice_number').on(t.saleId, t.number),
    index('invoice_buyer').on(t.buyerId),
    uniqueIndex('invoice_corrected_once').on(t.correctsId),
  ],
);

/** A settlement sheet as it was handed over: the finished model, frozen. */
export const settlement = sqliteTable(
  'settlement',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    number: integer('number').notNull(),
    sellerId: references('seller_id', () => seller.id),
    model: text('model').notNull(),
    correctsId: integer('corrects_id').references((): AnySQLiteColumn => settlement.id),
    issuedAt: text('issued_at').notNull(),
    line: line(),
  },
  (t) => [
    uniqueIndex('settlement_number').on(t.saleId, t.number),
    index('settlement_seller').on(t.sellerId),
    uniqueIndex('settlement_corrected_once').on(t.correctsId),
  ],
);

/**
 * A check written to one partner of a seller number. Whose it is, how much and when stand in its payment; a check is
 * void once that payment is voided. One written in the place of another names it.
 */
export const sellerCheck = sqliteTable(
  'seller_check',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    /** The number printed on the check: once in all sales, which are paid from one account. */
    number: integer('number').notNull(),
    paymentId: references('payment_id', () => payment.id),
    /** The sheet that it pays. */
    settlementId: references('settlement_id', () => settlement.id),
    replacesId: integer('replaces_id').references((): AnySQLiteColumn => sellerCheck.id),
    line: line(),
  },
  (t) => [
    uniqueIndex('seller_check_number').on(t.number),
    index('seller_check_sale').on(t.saleId),
    uniqueIndex('seller_check_payment').on(t.paymentId),
    uniqueIndex('seller_check_replaced_once').on(t.replacesId),
    index('seller_check_settlement').on(t.settlementId),
    wholeNumberColumn('seller_check_number', t.number),
    check('seller_check_positive', sql`${t.number} > 0`),
  ],
);

/** A sale that was closed, with the closing report as it was then, frozen; or one that was opened again, with the reason. */
export const closing = sqliteTable(
  'closing',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    kind: text('kind').$type<'closed' | 'reopened'>().notNull(),
    /** The finished closing report; null where the sale was opened again. */
    model: text('model'),
    reason: words('reason'),
    worker: text('worker').notNull(),
    at: text('at').notNull(),
    line: line(),
  },
  (t) => [
    index('closing_sale').on(t.saleId),
    oneOf('closing_kind', t.kind, ['closed', 'reopened']),
    check('closing_report', sql`(${t.kind} = 'closed') = (${t.model} IS NOT NULL)`),
  ],
);

/**
 * What was done with the till's drawer: opened with a float, cash added or taken out, counted, closed. The cash of an
 * entry is in `drawer_piece` by denomination; the other methods are amounts, null where nobody counted them.
 */
export const drawerEntry = sqliteTable(
  'drawer_entry',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    kind: text('kind').$type<'opened' | 'added' | 'taken' | 'counted' | 'closed'>().notNull(),
    checksCents: centsColumn('checks_cents'),
    cardsCents: centsColumn('cards_cents'),
    otherCents: centsColumn('other_cents'),
    note: words('note'),
    at: text('at').notNull(),
    voidsId: integer('voids_id').references((): AnySQLiteColumn => drawerEntry.id),
    line: line(),
  },
  (t) => [
    index('drawer_sale').on(t.saleId),
    uniqueIndex('drawer_voided_once').on(t.voidsId),
    oneOf('drawer_kind', t.kind, ['opened', 'added', 'taken', 'counted', 'closed']),
    wholeNumberColumn('drawer_checks', t.checksCents),
    wholeNumberColumn('drawer_cards', t.cardsCents),
    wholeNumberColumn('drawer_other', t.otherCents),
  ],
);

/** So many notes or coins of one denomination in one entry. A row that voids an entry has none. */
export const drawerPiece = sqliteTable(
  'drawer_piece',
  {
    id: id(),
    entryId: references('entry_id', () => drawerEntry.id),
    denominationCents: centsColumn('denomination_cents').notNull(),
    pieces: integer('pieces').notNull(),
    line: line(),
  },
  (t) => [
    uniqueIndex('drawer_piece_once').on(t.entryId, t.denominationCents),
    wholeNumberColumn('drawer_piece_denomination', t.denominationCents),
    wholeNumberColumn('drawer_piece_pieces', t.pieces),
    check('drawer_piece_positive', sql`${t.denominationCents} > 0 AND ${t.pieces} > 0`),
  ],
);

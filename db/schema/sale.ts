import { index, integer, primaryKey, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { person, personColumns } from './association.ts';
import { centsColumn, flagColumn, id, line, oneOf, references, wholeNumberColumn, words } from './columns.ts';

const BYS = ['piece', 'lot', 'lb', 'oz'];

/** One sale with its terms: rates as decimal text, money as whole cents. */
export const sale = sqliteTable(
  'sale',
  {
    id: id(),
    name: text('name').notNull(),
    heldOn: text('held_on').notNull(),
    venue: words('venue'),
    season: text('season').notNull(),
    seasonClosesOn: text('season_closes_on'),
    region: text('region').notNull(),
    currency: text('currency').notNull(),
    bidding: text('bidding').$type<'floor' | 'sealed'>().notNull(),
    stage: text('stage').$type<'planned' | 'intake' | 'selling' | 'settling' | 'closed'>().notNull(),
    commissionMemberPct: text('commission_member_pct').notNull(),
    commissionGuestPct: text('commission_guest_pct').notNull(),
    commissionMinCents: centsColumn('commission_min_cents').notNull(),
    sellerNumberFeeCents: centsColumn('seller_number_fee_cents').notNull(),
    lotFeeCents: centsColumn('lot_fee_cents').notNull(),
    noSaleFlatCents: centsColumn('no_sale_flat_cents').notNull(),
    noSalePctOfMinimum: text('no_sale_pct_of_minimum').notNull(),
    premiumPct: text('premium_pct').notNull(),
    taxPct: text('tax_pct').notNull(),
    priceStepCents: centsColumn('price_step_cents').notNull(),
    /** What a left bid makes of a lot: one step above the next highest bid, or the bid itself. */
    leftBids: text('left_bids').$type<'step' | 'bid'>().notNull().default('step'),
    guestsMaySell: flagColumn('guests_may_sell'),
    duesCents: centsColumn('dues_cents').notNull(),
    /** How the clerk has the lots come up: the word of an order, see `lib/lot/running-order.ts`. */
    runningOrder: text('running_order').notNull().default('lot'),
    /** True where lots may leave the hall before they are paid; otherwise what was paid has to cover them. */
    handOverUnpaid: flagColumn('hand_over_unpaid'),
    /** True where a seller is paid only once the buyers of all their lots have paid. */
    sellersWait: flagColumn('sellers_wait'),
    /** Days after the season's close until a statement of furs still held is due at the agency. */
    statementDays: integer('statement_days').notNull().default(10),
    /** ISO 8601, UTC: from then on no more written bids are taken down. Null where nobody has said when. */
    bidsCloseAt: text('bids_close_at'),
    /** ISO 8601, UTC: until then a seller may accept a written bid below the minimum. */
    sellersAnswerBy: text('sellers_answer_by'),
    /** When somebody closed the written bids by hand; null where the clock does it, or before. */
    bidsClosedAt: text('bids_closed_at'),
    /** When the lots were awarded; null before. */
    bidsAwardedAt: text('bids_awarded_at'),
    /** What a lot below its minimum comes to when its seller has said nothing by `sellers_answer_by`. */
    noAnswer: text('no_answer').$type<'kept' | 'accepted'>().notNull().default('kept'),
    /** True where nobody sells with an expired licence or without one; otherwise it is only shown. */
    licenceRequired: flagColumn('licence_required'),
    /** ISO 8601 date to which dues taken at this sale are paid. Null where they run for a year. */
    duesUntil: text('dues_until'),
    line: line(),
  },
  (t) => [
    // A sale often has the same name every year.
    uniqueIndex('sale_of_day').on(t.name, t.heldOn),
    oneOf('sale_no_answer', t.noAnswer, ['kept', 'accepted']),
    oneOf('sale_left_bids', t.leftBids, ['step', 'bid']),
    oneOf('sale_bidding', t.bidding, ['floor', 'sealed']),
    oneOf('sale_stage', t.stage, ['planned', 'intake', 'selling', 'settling', 'closed']),
    wholeNumberColumn('sale_commission_min', t.commissionMinCents),
    wholeNumberColumn('sale_seller_number_fee', t.sellerNumberFeeCents),
    wholeNumberColumn('sale_lot_fee', t.lotFeeCents),
    wholeNumberColumn('sale_no_sale_flat', t.noSaleFlatCents),
    wholeNumberColumn('sale_price_step', t.priceStepCents),
    wholeNumberColumn('sale_dues', t.duesCents),
  ],
);

export const commissionOverride = sqliteTable(
  'commission_override',
  {
    saleId: references('sale_id', () => sale.id),
    goods: text('goods').notNull(),
    memberPct: text('member_pct').notNull(),
    guestPct: text('guest_pct').notNull(),
    line: line(),
  },
  (t) => [primaryKey({ columns: [t.saleId, t.goods] })],
);

/** The goods of one sale. Each sale keeps its own, so that next year's changes leave last year's papers alone. */
export const goods = sqliteTable(
  'goods',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    goods: text('goods').notNull(),
    name: text('name').notNull(),
    scientificName: words('scientific_name'),
    by: text('by').$type<'piece' | 'lot' | 'lb' | 'oz'>().notNull(),
    exportTag: flagColumn('export_tag'),
    tagSpeciesCode: words('tag_species_code'),
    seasonLimit: integer('season_limit'),
    /** JSON lists of the association's own words, empty where it has none. */
    sizes: text('sizes', { mode: 'json' }).$type<string[]>().notNull().default([]),
    grades: text('grades', { mode: 'json' }).$type<string[]>().notNull().default([]),
    caution: words('caution'),
    line: line(),
  },
  (t) => [
    uniqueIndex('goods_of_sale').on(t.saleId, t.goods),
    oneOf('goods_by', t.by, BYS),
    wholeNumberColumn('goods_season_limit', t.seasonLimit),
  ],
);

/** A person as they stood at one sale: the name, address, membership and licence shown there. */
export const particulars = sqliteTable(
  'particulars',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    personId: references('person_id', () => person.id),
    ref: text('ref').notNull(),
    ...personColumns(),
    line: line(),
  },
  (t) => [
    uniqueIndex('particulars_ref').on(t.saleId, t.ref),
    uniqueIndex('particulars_person').on(t.saleId, t.personId),
  ],
);

export const seller = sqliteTable(
  'seller',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    sellerNo: integer('seller_no').notNull(),
    /** Who stands at the table with the goods of another, and the written authority they showed. */
    broughtBy: words('brought_by'),
    arrivedAt: text('arrived_at'),
    line: line(),
  },
  (t) => [uniqueIndex('seller_number').on(t.saleId, t.sellerNo), wholeNumberColumn('seller_no', t.sellerNo)],
);

export const partner = sqliteTable(
  'partner',
  {
    id: id(),
    sellerId: references('seller_id', () => seller.id),
    position: integer('position').notNull(),
    personId: references('person_id', () => person.id),
    parts: integer('parts').notNull(),
    line: line(),
  },
  (t) => [
    uniqueIndex('partner_position').on(t.sellerId, t.position),
    index('partner_person').on(t.personId),
    wholeNumberColumn('partner_parts', t.parts),
  ],
);

export const buyer = sqliteTable(
  'buyer',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    buyerNo: integer('buyer_no').notNull(),
    personId: references('person_id', () => person.id),
    licenceNo: words('licence_no'),
    licenceRegion: words('licence_region'),
    licenceExpires: text('licence_expires'),
    taxExempt: flagColumn('tax_exempt'),
    exemptNo: words('exempt_no'),
    cleared: flagColumn('cleared'),
    clearedBy: words('cleared_by'),
    limitCents: centsColumn('limit_cents'),
    line: line(),
  },
  (t) => [
    uniqueIndex('buyer_number').on(t.saleId, t.buyerNo),
    wholeNumberColumn('buyer_no', t.buyerNo),
    wholeNumberColumn('buyer_limit', t.limitCents),
  ],
);

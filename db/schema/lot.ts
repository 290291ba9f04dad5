import { sql } from 'drizzle-orm';
import {
  type AnySQLiteColumn,
  check,
  index,
  integer,
  real,
  sqliteTable,
  text,
  uniqueIndex,
} from 'drizzle-orm/sqlite-core';
import type { Fate, OutcomeKind } from '#lib/sale/facts.ts';
import { centsColumn, flagColumn, id, line, oneOf, references, wholeNumberColumn, words } from './columns.ts';
import { buyer, goods, sale, seller } from './sale.ts';

/** A lot as it was checked in. It can be amended until it is called; after that only outcomes are added. */
export const lot = sqliteTable(
  'lot',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    lotNumber: integer('lot_number').notNull(),
    lotLetter: words('lot_letter'),
    sellerId: references('seller_id', () => seller.id),
    goodsId: references('goods_id', () => goods.id),
    by: text('by').$type<'piece' | 'lot' | 'lb' | 'oz'>().notNull(),
    count: integer('count'),
    weightThousandths: integer('weight_thousandths'),
    size: words('size'),
    grade: words('grade'),
    section: words('section'),
    form: text('form').$type<'put_up' | 'green' | 'carcass'>().notNull().default('put_up'),
    /** The region (ISO 3166-2) whose tag the pieces carry, where it is not the sale's own. */
    takenIn: words('taken_in'),
    minimumCents: centsColumn('minimum_cents'),
    /** True where the seller sells without reserve, whatever the bid. */
    withoutReserve: flagColumn('without_reserve'),
    donated: flagColumn('donated'),
    note: words('note'),
    /** Numbers that lead here since a lot was divided or joined, as `72 divided, 81 joined`: none is given again. */
    formerNumbers: words('former_numbers'),
    /** A place given by hand or by a skip; lots without one follow the sale's order. */
    place: real('place'),
    line: line(),
  },
  (t) => [
    uniqueIndex('lot_number').on(t.saleId, t.lotNumber, t.lotLetter),
    index('lot_seller').on(t.sellerId),
    index('lot_goods').on(t.goodsId, t.by),
    // What a sale's lots brought is added up without reading the lots themselves.
    index('lot_measure').on(t.saleId, t.id, t.by, t.count, t.weightThousandths),
    oneOf('lot_by', t.by, ['piece', 'lot', 'lb', 'oz']),
    oneOf('lot_form', t.form, ['put_up', 'green', 'carcass']),
    wholeNumberColumn('lot_number', t.lotNumber),
    wholeNumberColumn('lot_count', t.count),
    wholeNumberColumn('lot_weight', t.weightThousandths),
    wholeNumberColumn('lot_minimum', t.minimumCents),
    check('lot_without_reserve', sql`NOT ${t.withoutReserve} OR ${t.minimumCents} IS NULL`),
  ],
);

/**
 * An export tag on a piece of a lot. `live` is 1 on the newest row of a tag: the unique index on live rows is the
 * book's own guard that a tag stands once in all years, and a piece that comes back turns the older row to 0.
 */
export const tag = sqliteTable(
  'tag',
  {
    id: id(),
    lotId: references('lot_id', () => lot.id),
    position: integer('position').notNull(),
    tag: text('tag').notNull(),
    condition: text('condition').$type<'intact' | 'broken' | 'replacement'>().notNull().default('intact'),
    live: integer('live', { mode: 'boolean' }).notNull().default(true),
    /** The lot in which the same piece went home unsold before. */
    cameBackFromId: integer('came_back_from_id').references((): AnySQLiteColumn => lot.id),
    /** When the tag was found broken after its lot was called; empty where it was not. It awaits its replacement. */
    brokeAt: words('broke_at'),
    /** The tag of the same lot in whose place this one came after the lot was called, or empty. */
    replaces: words('replaces'),
    line: line(),
  },
  (t) => [
    uniqueIndex('tag_once').on(t.tag).where(sql`live = 1`),
    index('tag_lot').on(t.lotId, t.position),
    // Asked by the database itself for each lot that comes in or goes.
    index('tag_came_back').on(t.cameBackFromId).where(sql`came_back_from_id IS NOT NULL`),
    oneOf('tag_condition', t.condition, ['intact', 'broken', 'replacement']),
  ],
);

/** A bid somebody wrote, left or was noted with. A retraction is a further row: it revives no bid before it. */
export const bid = sqliteTable(
  'bid',
  {
    id: id(),
    lotId: references('lot_id', () => lot.id),
    buyerId: references('buyer_id', () => buyer.id),
    kind: text('kind').$type<'written' | 'left' | 'under'>().notNull(),
    priceCents: centsColumn('price_cents').notNull(),
    receivedAt: words('received_at'),
    retractsId: integer('retracts_id').references((): AnySQLiteColumn => bid.id),
    /** True of both rows of a move: the taking back on the wrong lot, and the bid on the right one. */
    moved: flagColumn('moved'),
    /** Why it was changed after the bids had closed. */
    reason: words('reason'),
    line: line(),
  },
  (t) => [
    index('bid_lot').on(t.lotId),
    index('bid_buyer').on(t.buyerId),
    uniqueIndex('bid_retracted_once').on(t.retractsId),
    oneOf('bid_kind', t.kind, ['written', 'left', 'under']),
    wholeNumberColumn('bid_price', t.priceCents),
  ],
);

/**
 * What happened when a lot was called. Rows are never changed: a later row names the one it replaces.
 * Two unique indexes keep it a chain: one first outcome a lot, one successor an outcome.
 */
export const outcome = sqliteTable(
  'outcome',
  {
    id: id(),
    lotId: references('lot_id', () => lot.id),
    kind: text('kind').$type<OutcomeKind | 'reopened'>().notNull(),
    priceCents: centsColumn('price_cents'),
    buyerId: integer('buyer_id').references(() => buyer.id),
    replacesId: integer('replaces_id').references((): AnySQLiteColumn => outcome.id),
    reason: words('reason'),
    /** What becomes of the fur of a lot that was not paid for. One to be offered again is reopened by the next row. */
    fate: text('fate').$type<Fate>(),
    /** What the clerk answered when asked, such as `below_minimum` accepted by the seller. */
    remarks: text('remarks', { mode: 'json' }).$type<string[]>().notNull().default([]),
    /** True where the outcome follows from the written bids and no clerk wrote it. */
    awarded: flagColumn('awarded'),
    at: text('at').notNull(),
    line: line(),
  },
  (t) => [
    uniqueIndex('outcome_first').on(t.lotId).where(sql`replaces_id IS NULL`),
    uniqueIndex('outcome_replaced_once').on(t.replacesId),
    index('outcome_lot').on(t.lotId, t.kind, t.priceCents, t.buyerId, t.fate),
    index('outcome_buyer').on(t.buyerId, t.kind, t.lotId, t.priceCents),
    oneOf('outcome_kind', t.kind, ['sold', 'passed', 'withdrawn', 'bought_back', 'unpaid', 'reopened']),
    wholeNumberColumn('outcome_price', t.priceCents),
    check(
      'outcome_sold_whole',
      sql`(${t.kind} IN ('sold', 'bought_back', 'unpaid')) = (${t.priceCents} IS NOT NULL)
        AND (${t.kind} IN ('sold', 'unpaid')) = (${t.buyerId} IS NOT NULL)`,
    ),
    check('outcome_fate_of_unpaid', sql`(${t.kind} = 'unpaid') = (${t.fate} IS NOT NULL)`),
    check('outcome_fate', sql`${t.fate} IS NULL OR ${t.fate} IN ('seller', 'association', 'again')`),
    check('outcome_price_positive', sql`${t.priceCents} IS NULL OR ${t.priceCents} > 0`),
  ],
);

/**
 * A lot passing to its buyer, or coming back over the counter. Rows are never changed: like the outcomes of a lot they
 * are a chain, in which each row names the one it follows, and the newest says where the lot is.
 */
export const handover = sqliteTable(
  'handover',
  {
    id: id(),
    lotId: references('lot_id', () => lot.id),
    /** Who had bought the lot then; a later correction at the Block may name another. */
    buyerId: references('buyer_id', () => buyer.id),
    kind: text('kind').$type<'handed' | 'returned'>().notNull(),
    replacesId: integer('replaces_id').references((): AnySQLiteColumn => handover.id),
    takenBy: words('taken_by'),
    reason: words('reason'),
    at: text('at').notNull(),
    line: line(),
  },
  (t) => [
    uniqueIndex('handover_first').on(t.lotId).where(sql`replaces_id IS NULL`),
    uniqueIndex('handover_replaced_once').on(t.replacesId),
    index('handover_lot').on(t.lotId, t.kind),
    index('handover_buyer').on(t.buyerId),
    oneOf('handover_kind', t.kind, ['handed', 'returned']),
    check('handover_first_handed', sql`${t.replacesId} IS NOT NULL OR ${t.kind} = 'handed'`),
  ],
);

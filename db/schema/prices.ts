import { sql } from 'drizzle-orm';
import { check, index, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { person } from './association.ts';
import { centsColumn, id, line, references, wholeNumberColumn, words } from './columns.ts';

/**
 * A row of a plain price list: what pieces brought in a season of which no sale is left. Rows are never changed: where
 * a season was read in again, those with the newest line stand.
 */
export const priceListRow = sqliteTable(
  'price_list_row',
  {
    id: id(),
    season: text('season').notNull(),
    goods: text('goods').notNull(),
    section: words('section'),
    size: words('size'),
    grade: words('grade'),
    count: integer('count').notNull(),
    priceCents: centsColumn('price_cents').notNull(),
    line: line(),
  },
  (t) => [
    index('price_list_season').on(t.season, t.line),
    wholeNumberColumn('price_list_count', t.count),
    wholeNumberColumn('price_list_price', t.priceCents),
    check('price_list_positive', sql`${t.count} > 0 AND ${t.priceCents} > 0`),
  ],
);

/** One row at most: how the association shows its prices. */
export const priceSetting = sqliteTable(
  'price_setting',
  {
    id: id(),
    /** How many sellers, and how many buyers, a range that is shown has at least. */
    fewest: integer('fewest').notNull(),
    line: line(),
  },
  (t) => [
    check('price_setting_one', sql`${t.id} = 1`),
    check('price_setting_fewest', sql`typeof(${t.fewest}) = 'integer' AND ${t.fewest} BETWEEN 1 AND 99`),
  ],
);

/** A one-time code by which a person sees what their own goods brought; only its SHA-256 stands here. */
export const memberCode = sqliteTable(
  'member_code',
  {
    id: id(),
    personId: references('person_id', () => person.id),
    codeHash: text('code_hash').notNull().unique(),
    /** ISO 8601, UTC: from then on the code opens nothing. */
    endsAt: text('ends_at').notNull(),
    /** When it was used; null before. */
    usedAt: text('used_at'),
    line: line(),
  },
  (t) => [
    index('member_code_person').on(t.personId),
    check('member_code_is_sha256', sql`length(${t.codeHash}) = 64 AND ${t.codeHash} NOT GLOB '*[^0-9a-f]*'`),
  ],
);

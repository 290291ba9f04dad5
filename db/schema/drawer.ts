import { sql } from 'drizzle-orm';
import type { AnySQLiteColumn } from 'drizzle-orm/sqlite-core';
import { check, index, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { centsColumn, id, line, oneOf, references, wholeNumber, words } from './columns.ts';
import { sale } from './sale.ts';

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
    wholeNumber('drawer_checks', t.checksCents),
    wholeNumber('drawer_cards', t.cardsCents),
    wholeNumber('drawer_other', t.otherCents),
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
    wholeNumber('drawer_piece_denomination', t.denominationCents),
    wholeNumber('drawer_piece_pieces', t.pieces),
    check('drawer_piece_positive', sql`${t.denominationCents} > 0 AND ${t.pieces} > 0`),
  ],
);

import * as z from 'zod';
import { postDrawer } from '#db/account/post.ts';
import { type CommandContext, defineCommand, defineSaleCommand } from '#db/book/command.ts';
import { rowBy, saleById } from '#db/book/find.ts';
import { amountOrNull, price, readBy, rowId, someReason, text } from '#db/book/inputs.ts';
import { addRow, type NewRow } from '#db/book/rows.ts';
import { drawerEntry, drawerPiece } from '#db/schema/index.ts';
import { countCash, denominationsOf, type Pieces, parseBills } from '#lib/drawer/cash.ts';
import {
  decideDrawer,
  decideDrawerClose,
  decideDrawerVoid,
  isOpen,
  reckonDrawer,
  stintOf,
} from '#lib/drawer/drawer.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { drawerEntries, drawerMoves } from './queries.ts';

type DrawerFields = Omit<NewRow<typeof drawerEntry>, 'at'>;

/** Adds an entry of the drawer with its bills and coins; gives the row's id. */
function saveDrawerEntry(context: CommandContext, fields: DrawerFields, pieces: readonly Pieces[]): number {
  const entryId = addRow(context, drawerEntry, { ...fields, at: context.at });
  for (const one of pieces) addRow(context, drawerPiece, { entryId, ...one });
  postDrawer(context, fields.saleId, { entryId, voidsId: fields.voidsId ?? null });
  return entryId;
}

const MOST_DENOMINATIONS = 30;

/** Records what was done with the drawer: opened with its float, money put in or taken out, counted, closed with a last count. */
export const drawerRecord = defineSaleCommand({
  name: 'drawer.record',
  summary: 'Opens the drawer, puts money in or takes it out, counts or closes it, by bills and coins.',
  logLabel: 'Drawer',
  stations: ['till', 'office'],
  input: z.strictObject({
    saleId: rowId,
    kind: z.enum(['opened', 'added', 'taken', 'counted', 'closed']),
    /** Bills and coins by what each is worth; empty where there are none of it. */
    pieces: z
      .array(z.strictObject({ denomination: price, pieces: readBy(parseBills) }))
      .max(MOST_DENOMINATIONS)
      .default([]),
    /** What lies beside the cash, empty where it was not counted. */
    checks: amountOrNull.default(null),
    cards: amountOrNull.default(null),
    other: amountOrNull.default(null),
    note: text,
  }),
  run({ sale, ...context }, { saleId, kind, note, ...given }) {
    const pieces = given.pieces.flatMap((one) =>
      one.pieces === 0 ? [] : [{ denominationCents: one.denomination, pieces: one.pieces }],
    );
    const entries = drawerEntries(context.book, saleId);
    const open = isOpen(entries);
    const denominations = denominationsOf(sale.currency);
    const { checks: checksCents, cards: cardsCents, other: otherCents } = given;
    const act = { kind, pieces, beside: [checksCents, cardsCents, otherCents] };
    const decided = decideDrawer({ stage: sale.stage, open, denominations }, act);
    if (!decided.ok) return decided;
    if (kind === 'closed') {
      const beside = { checksCents, cardsCents, otherCents };
      const count = { entryId: 0, kind, line: context.line, cashCents: countCash(pieces), ...beside } as const;
      const moves = drawerMoves(context.book, saleId);
      const even = decideDrawerClose(reckonDrawer([...stintOf(entries), count], moves, count), note);
      if (!even.ok) return even;
    }
    const fields = { saleId, kind, checksCents, cardsCents, otherCents, note, voidsId: null };
    return accept({ entryId: saveDrawerEntry(context, fields, pieces) });
  },
});

const entryById = rowBy(drawerEntry, 'id');
const entryThatVoids = rowBy(drawerEntry, 'voidsId');

/** Takes the newest entry of a drawer back by a further row, with the reason; both rows stay. */
export const drawerVoid = defineCommand({
  name: 'drawer.void',
  summary: 'Voids the newest entry of the drawer, with the reason.',
  logLabel: 'Drawer entry voided',
  stations: ['till', 'office'],
  input: z.strictObject({ entryId: rowId, reason: someReason }),
  run(context, { entryId, reason: note }) {
    const row = entryById(context.book, entryId);
    const sale = row && saleById(context.book, row.saleId);
    if (!row || !sale) return refuse('unknown', 'This entry is not in the book: reload the page.', 'entryId');
    const newest = drawerEntries(context.book, sale.id).at(-1)?.entryId === entryId;
    const voided = entryThatVoids(context.book, entryId) !== undefined;
    const decided = decideDrawerVoid({ stage: sale.stage, voids: row.voidsId !== null, voided, newest });
    if (!decided.ok) return decided;
    const nothing = { checksCents: null, cardsCents: null, otherCents: null };
    const fields = { saleId: sale.id, kind: row.kind, ...nothing, note, voidsId: entryId };
    return accept({ entryId: saveDrawerEntry(context, fields, []), voidsId: entryId });
  },
});

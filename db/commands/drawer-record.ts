import { z } from 'zod';
import { decideDrawerClose } from '#lib/drawer/decide-close.ts';
import { decideDrawer } from '#lib/drawer/decide-drawer.ts';
import { countCash, denominationsOf } from '#lib/drawer/denominations.ts';
import { isOpen, reckonDrawer, stintOf } from '#lib/drawer/reckon.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { amountOrNull, piecesOrNull, price, rowId, text } from '../inputs.ts';
import { drawerEntries, drawerMoves } from '../queries/drawer.ts';
import { saleById } from '../queries/find.ts';
import { saveDrawerEntry } from '../save/drawer.ts';

const MOST_DENOMINATIONS = 30;

const input = z.strictObject({
  saleId: rowId,
  kind: z.enum(['opened', 'added', 'taken', 'counted', 'closed']),
  /** Notes and coins by what each is worth; empty where there are none of it. */
  pieces: z
    .array(z.strictObject({ denomination: price, pieces: piecesOrNull }))
    .max(MOST_DENOMINATIONS)
    .default([]),
  /** What lies beside the cash, empty where it was not counted. */
  checks: amountOrNull.default(null),
  cards: amountOrNull.default(null),
  other: amountOrNull.default(null),
  note: text,
});

/** Records what was done with the drawer: opened with its float, money put in or taken out, counted, closed with a last count. */
export const drawerRecord = defineCommand({
  name: 'drawer.record',
  summary: 'Opens the drawer, puts money in or takes it out, counts or closes it, by notes and coins.',
  logLabel: 'Drawer',
  stations: ['till', 'office'],
  input,
  run(context, { saleId, kind, note, ...given }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const pieces = given.pieces.flatMap((one) =>
      one.pieces === null ? [] : [{ denominationCents: one.denomination, pieces: one.pieces }],
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

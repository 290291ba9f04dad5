import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { decideDrawerVoid } from '#lib/drawer/decide-drawer.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, someText } from '../inputs.ts';
import { drawerEntries } from '../queries/drawer.ts';
import { saleById } from '../queries/find.ts';
import { saveDrawerEntry } from '../save/drawer.ts';
import { drawerEntry } from '../schema/index.ts';

const input = z.strictObject({ entryId: rowId, reason: someText });

/** Takes the newest entry of a drawer back by a further row, with the reason; both rows stay. */
export const drawerVoid = defineCommand({
  name: 'drawer.void',
  summary: 'Voids the newest entry of the drawer, with the reason.',
  logLabel: 'Drawer entry voided',
  stations: ['till', 'office'],
  input,
  run(context, { entryId, reason: note }) {
    const { db } = context.book;
    const row = db.select().from(drawerEntry).where(eq(drawerEntry.id, entryId)).get();
    const sale = row && saleById(context.book, row.saleId);
    if (!row || !sale) return refuse('unknown', 'This entry is not in the book: reload the page.', 'entryId');
    const standing = drawerEntries(context.book, sale.id);
    const decided = decideDrawerVoid({
      stage: sale.stage,
      voids: row.voidsId !== null,
      voided: db.select().from(drawerEntry).where(eq(drawerEntry.voidsId, entryId)).get() !== undefined,
      newest: standing.at(-1)?.entryId === entryId,
    });
    if (!decided.ok) return decided;
    const nothing = { checksCents: null, cardsCents: null, otherCents: null };
    const fields = { saleId: sale.id, kind: row.kind, ...nothing, note, voidsId: entryId };
    return accept({ entryId: saveDrawerEntry(context, fields, []), voidsId: entryId });
  },
});

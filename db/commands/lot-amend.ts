import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId } from '../inputs.ts';
import { lotToChange } from '../queries/lot-to-change.ts';
import { replaceTags } from '../save/lot.ts';
import { lot } from '../schema/index.ts';
import { holdsNow } from './lot-add.ts';
import { checkLot, lotFields, tagList } from './lot-fields.ts';

const input = z.strictObject({ lotId: rowId, ...lotFields, tags: tagList });

/** Changes what was said of a lot, with its tags, before it is called. */
export const lotAmend = defineCommand({
  name: 'lot.amend',
  summary: 'Changes a lot and its export tags before it is called.',
  logLabel: 'Amended',
  stations: ['intake', 'office'],
  input,
  run(context, { lotId, ...said }) {
    const row = lotToChange(context.book, lotId);
    if (!row.ok) return row;
    const checked = checkLot(context.book, { saleId: row.value.saleId, sellerId: row.value.sellerId, lotId }, said);
    if (!checked.ok) return checked;
    const changed = { ...checked.value.fields, line: context.line };
    context.book.db.update(lot).set(changed).where(eq(lot.id, lotId)).run();
    replaceTags(context, lotId, checked.value.tags);
    return accept({ lotId, holds: holdsNow(context, lotId) });
  },
});

import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { checkTags } from '../check-tags.ts';
import { defineCommand } from '../command.ts';
import { rowId } from '../inputs.ts';
import { goodsById } from '../queries/find.ts';
import { lotToChange } from '../queries/lot-to-change.ts';
import { replaceTags } from '../save/lot.ts';
import { holdsNow } from './lot-add.ts';
import { tagList } from './lot-fields.ts';

const input = z.strictObject({ lotId: rowId, tags: tagList });

/** Says which export tags are on a lot's pieces; the lot leaves hold the moment they are right. */
export const tagsSet = defineCommand({
  name: 'tags.set',
  summary: "Sets the export tags on a lot's pieces, before it is called.",
  logLabel: 'Export tags entered',
  stations: ['intake', 'office'],
  input,
  run(context, { lotId, tags }) {
    const row = lotToChange(context.book, lotId);
    if (!row.ok) return row;
    const goods = goodsById(context.book, row.value.goodsId);
    if (!goods) return refuse('unknown', 'The goods of this lot are not in the book.', 'lotId');
    const checked = checkTags(context.book, { saleId: row.value.saleId, lotId, goods }, tags);
    if (!checked.ok) return checked;
    replaceTags(context, lotId, checked.value);
    return accept({ lotId, holds: holdsNow(context, lotId) });
  },
});

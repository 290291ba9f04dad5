import { z } from 'zod';
import { pick } from '#lib/field/fields.ts';
import { accept, refuse } from '#lib/result.ts';
import { SALE_FIELDS } from '#lib/sale/terms-fields.ts';
import { defineCommand } from '../command.ts';
import { columnShapeOf, dateOrNull, rowId } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { saleOfRow } from '../queries/sale-facts.ts';
import { isPlanned } from '../queries/sale-so-far.ts';
import { copyCustoms, copyGoods, saveSale } from '../save/sale.ts';

const OF_ITS_OWN = pick(SALE_FIELDS, ['name', 'heldOn', 'venue', 'season']);

const input = z.strictObject({
  likeSaleId: rowId,
  ...columnShapeOf(OF_ITS_OWN),
  season_closes_on: dateOrNull,
});

/** Plans a sale under the terms of an earlier one, with its goods and customs. The earlier one stays as it is. */
export const saleNext = defineCommand({
  name: 'sale.next',
  summary: 'Plans a sale with the terms, the goods and the customs of an earlier one.',
  logLabel: 'Sale planned like an earlier one',
  stations: ['office'],
  input,
  run(context, { likeSaleId, name, held_on: heldOn, venue, season, season_closes_on: seasonClosesOn }) {
    const before = saleById(context.book, likeSaleId);
    if (!before) return refuse('unknown', 'This sale is not in the book: choose it again.', 'likeSaleId');
    if (isPlanned(context.book, { name, heldOn })) {
      return refuse(
        'taken',
        `There is already a sale called ${name} on ${heldOn}: choose another name or day.`,
        'name',
      );
    }
    const facts = { ...saleOfRow(context.book, before), name, heldOn, venue, season, seasonClosesOn };
    const saleId = saveSale(context, facts, 'planned');
    copyGoods(context, { from: before.id, to: saleId });
    copyCustoms(context, before, saleId);
    return accept({ saleId });
  },
});

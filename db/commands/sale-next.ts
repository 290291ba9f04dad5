import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { date, dateOrNull, rowId, someText, text } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { saleOfRow } from '../queries/sale-facts.ts';
import { isPlanned } from '../queries/sale-so-far.ts';
import { copyCustoms, copyGoods, saveSale } from '../save/sale.ts';

const input = z.strictObject({
  likeSaleId: rowId,
  name: someText,
  held_on: date,
  venue: text,
  season: someText,
  season_closes_on: dateOrNull,
});

/** Plans a sale under the terms of an earlier one, with its goods and customs. The earlier one stays as it is. */
export const saleNext = defineCommand({
  name: 'sale.next',
  summary: 'Plans a sale with the terms, the goods and the customs of an earlier one.',
  logLabel: 'Sale planned like an earlier one',
  stations: ['office'],
  input,
  run(scene, { likeSaleId, name, held_on: heldOn, venue, season, season_closes_on: seasonClosesOn }) {
    const before = saleById(scene.book, likeSaleId);
    if (!before) return refuse('unknown', 'This sale is not in the book: choose it again.', 'likeSaleId');
    if (isPlanned(scene.book, { name, heldOn })) {
      return refuse(
        'taken',
        `There is already a sale called ${name} on ${heldOn}: choose another name or day.`,
        'name',
      );
    }
    const facts = { ...saleOfRow(scene.book, before), name, heldOn, venue, season, seasonClosesOn };
    const saleId = saveSale(scene, facts, 'planned');
    copyGoods(scene, { from: before.id, to: saleId });
    copyCustoms(scene, before, saleId);
    return accept({ saleId });
  },
});

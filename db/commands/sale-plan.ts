import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { isPlanned } from '../queries/sale-so-far.ts';
import { saleInput, saleOf } from '../sale-input.ts';
import { saveGoods, saveSale } from '../save/sale.ts';
import { goodsInput } from './goods-fields.ts';

const input = z.strictObject({ sale: saleInput, goods: z.array(goodsInput).max(200) });

/** Plans a sale: its terms, and the goods it takes. */
export const salePlan = defineCommand({
  name: 'sale.plan',
  summary: 'Adds a sale with its terms and its goods, in the stage “planned”.',
  logLabel: 'Sale planned',
  stations: ['office'],
  input,
  run(context, planned) {
    const facts = saleOf(planned.sale);
    if (isPlanned(context.book, facts)) {
      const what = `There is already a sale called ${facts.name} on ${facts.heldOn}`;
      return refuse('taken', `${what}: give this one another name, or another day.`, 'sale.name');
    }
    const codes = new Set(planned.goods.map(({ goods }) => goods));
    if (codes.size < planned.goods.length) {
      return refuse('taken', 'Two goods have the same short name: give each its own.', 'goods');
    }
    const stray = Object.keys(facts.terms.commissionOverrides).find((code) => !codes.has(code));
    if (stray !== undefined) {
      return refuse(
        'unknown',
        `The commission names ${stray}, which is not among the goods: add it there.`,
        'sale.terms',
      );
    }
    const saleId = saveSale(context, facts, 'planned');
    for (const goods of planned.goods) saveGoods(context, saleId, goods);
    return accept({ saleId });
  },
});

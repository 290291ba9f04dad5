import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { RUNNING_ORDERS } from '#lib/running-order.ts';
import { defineCommand } from '../command.ts';
import { rowId } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { openLots } from '../queries/open-lots.ts';
import { savePlace } from '../save/lot.ts';
import { saveOrder } from '../save/sale.ts';

const input = z.strictObject({ saleId: rowId, order: z.enum(RUNNING_ORDERS) });

/** Says how the lots come up. Places given before fall away, save by hand, which keeps the order as it stood. */
export const saleOrder = defineCommand({
  name: 'sale.order',
  summary:
    'Sets the running order: by lot number, by seller number, by kind of goods, or by hand from where it stands.',
  logLabel: 'Running order set',
  stations: ['block', 'office'],
  input,
  run(context, { saleId, order }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: no lot comes up any more.');
    const open = openLots(context.book, sale);
    for (const [at, { lotId }] of open.entries()) savePlace(context, lotId, order === 'hand' ? at + 1 : null);
    saveOrder(context, saleId, order);
    return accept({ saleId, order, lots: open.length });
  },
});

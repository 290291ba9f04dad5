import { z } from 'zod';
import type { LotNo } from '#lib/lot-number.ts';
import { accept, type Result } from '#lib/result.ts';
import { placeInFront, placesWithMoved } from '#lib/running-order.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { lotNumber, rowId } from '../inputs.ts';
import { type LotToMove, lotToMove } from '../queries/lot-to-change.ts';
import { savePlace } from '../save/lot.ts';
import { saveOrder } from '../save/sale.ts';

const input = z.strictObject({
  saleId: rowId,
  lotNo: lotNumber,
  /** The lot before which it shall come; null puts it up now. */
  before: lotNumber.nullable().default(null),
});

/** Puts a lot up now, or before another by hand, from where on the whole order is by hand. */
export const lotPlace = defineCommand({
  name: 'lot.place',
  summary: 'Puts up a lot by its number, or moves it before another one in the running order.',
  logLabel: 'Place in the order changed',
  stations: ['block', 'office'],
  input,
  run(context, { saleId, lotNo, before }) {
    const found = lotToMove(context.book, saleId, lotNo);
    if (!found.ok) return found;
    const { lot, open } = found.value;
    if (before !== null && before !== lotNo) return moveBefore(context, found.value, before);
    if (open[0] !== lot) savePlace(context, lot.lotId, placeInFront(open));
    return accept({ lotId: lot.lotId });
  },
});

function moveBefore(context: CommandContext, { sale, lot, open }: LotToMove, before: LotNo): Result<{ lotId: number }> {
  const target = lotToMove(context.book, sale.id, before);
  if (!target.ok) return { ...target, field: 'before' };
  const other = open.find(({ lotNo }) => lotNo === before) ?? lot;
  for (const [{ lotId }, place] of placesWithMoved(open, lot, other)) savePlace(context, lotId, place);
  saveOrder(context, sale.id, 'hand');
  return accept({ lotId: lot.lotId });
}

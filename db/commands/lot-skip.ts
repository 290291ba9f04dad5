import { z } from 'zod';
import { accept } from '#lib/result.ts';
import { placeBehind } from '#lib/running-order.ts';
import { defineCommand } from '../command.ts';
import { flag, lotNumber, rowId } from '../inputs.ts';
import { lotToMove } from '../queries/lot-to-change.ts';
import { savePlace } from '../save/lot.ts';

const input = z.strictObject({
  saleId: rowId,
  lotNo: lotNumber,
  /** True where the seller is not ready, so that all of the seller's lots go to the end in their order. */
  wholeSeller: flag.default(false),
});

/** Sends a lot, or all lots of its seller, to the end of the running order. */
export const lotSkip = defineCommand({
  name: 'lot.skip',
  summary: 'Sends a lot, or all lots of its seller, to the end of the running order.',
  logLabel: 'Put behind the others',
  stations: ['block', 'office'],
  input,
  run(context, { saleId, lotNo, wholeSeller }) {
    const found = lotToMove(context.book, saleId, lotNo);
    if (!found.ok) return found;
    const { lot, open } = found.value;
    const end = placeBehind(open);
    const skipped = wholeSeller ? open.filter(({ sellerNo }) => sellerNo === lot.sellerNo) : [lot];
    for (const [at, { lotId }] of skipped.entries()) savePlace(context, lotId, end + at);
    return accept({ lotId: lot.lotId, lots: skipped.length });
  },
});

import { z } from 'zod';
import { parseLotList } from '#lib/lot-list.ts';
import { accept } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { partyNumber, price, readBy, rowId } from '../inputs.ts';
import { hammerAt, outcomeFields, outcomeRecord } from './outcome-record.ts';

const input = z.strictObject({
  saleId: rowId,
  /** `12+15+18`: each of them goes at the price. */
  lots: readBy(parseLotList),
  hammerAt,
  price,
  buyerNo: partyNumber,
  answered: outcomeFields.answered,
});

/** Takes down a choice: the buyer who won it takes several lots at one price each. All of them, or none. */
export const outcomeChoice = defineCommand({
  name: 'outcome.choice',
  summary: 'Records several lots that one buyer takes at one price each, all or none.',
  logLabel: 'Outcome of a choice',
  stations: ['block', 'office'],
  input,
  run(context, { lots, ...said }) {
    const outcomes: { readonly outcomeId: number; readonly lotId: number }[] = [];
    for (const lotNo of lots) {
      const taken = outcomeRecord.run(context, { ...said, lotNo, kind: 'sold' });
      if (!taken.ok) {
        // A field of the lot is the list of lots here, and a question says of which lot it is asked.
        const field = taken.field === 'lotNo' ? 'lots' : taken.field;
        const message = taken.message.includes(`Lot ${lotNo} `) ? taken.message : `Lot ${lotNo}. ${taken.message}`;
        return { ...taken, message, ...(field !== undefined && { field }) };
      }
      outcomes.push(taken.value);
    }
    return accept({ outcomes });
  },
});

import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { flag, rowId } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { sale as saleTable } from '../schema/index.ts';

const input = z.strictObject({
  saleId: rowId,
  sellersWait: flag,
  statementDays: z.int({ error: 'Enter the days as a whole number.' }).min(0).max(366, { error: 'At most 366 days.' }),
});

/** Sets whether sellers wait for the buyers of their lots, and how long furs may be held without a statement. */
export const payoutPolicy = defineCommand({
  name: 'payout.policy',
  summary:
    'Says whether sellers wait for their buyers’ money, and after how many days a statement of held furs is due.',
  logLabel: 'Rules of the payout set',
  stations: ['payout', 'office'],
  input,
  run({ book, line }, { saleId, sellersWait, statementDays }) {
    const sale = saleById(book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
    book.db.update(saleTable).set({ sellersWait, statementDays, line }).where(eq(saleTable.id, saleId)).run();
    return accept({ saleId, sellersWait, statementDays });
  },
});

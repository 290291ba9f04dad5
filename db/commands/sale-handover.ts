import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { flag, rowId } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { sale as saleTable } from '../schema/index.ts';

const input = z.strictObject({ saleId: rowId, unpaid: flag });

/** Says whether lots of a sale may leave before they are paid. */
export const saleHandover = defineCommand({
  name: 'sale.handover',
  summary: 'Says whether lots may be handed over before they are paid.',
  logLabel: 'Handing over set',
  stations: ['office'],
  input,
  run({ book, line }, { saleId, unpaid }) {
    const sale = saleById(book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
    if (sale.handOverUnpaid === unpaid) return refuse('already', 'The sale says so already.', 'unpaid');
    book.db.update(saleTable).set({ handOverUnpaid: unpaid, line }).where(eq(saleTable.id, saleId)).run();
    return accept({ unpaid });
  },
});

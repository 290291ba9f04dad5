import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { decideStage, STAGES } from '#lib/stage.ts';
import { defineCommand } from '../command.ts';
import { rowId, text } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { sale } from '../schema/index.ts';

const input = z.strictObject({ saleId: rowId, stage: z.enum(STAGES), reason: text });

/** Takes the sale to its next stage, or back one with a reason. */
export const saleStage = defineCommand({
  name: 'sale.stage',
  summary: 'Moves a sale to its next stage, or back one with a reason.',
  stations: ['office'],
  input,
  run(scene, { saleId, stage, reason }) {
    const found = saleById(scene.book, saleId);
    if (!found) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const decided = decideStage(found.stage, stage, reason);
    if (!decided.ok) return decided;
    scene.book.db.update(sale).set({ stage, line: scene.line }).where(eq(sale.id, saleId)).run();
    return accept({ saleId, stage });
  },
});

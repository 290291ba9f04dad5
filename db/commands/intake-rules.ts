import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { dateOrNull, flag, rowId } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { sale as saleTable } from '../schema/index.ts';

const input = z.strictObject({ saleId: rowId, licenceRequired: flag, duesUntil: dateOrNull });

/** Says whether anybody may sell with an expired licence or without one, and to which day dues are paid that are taken here. */
export const intakeRules = defineCommand({
  name: 'intake.rules',
  summary: 'Says whether a sale refuses sellers without a good licence, and to which day its dues are paid.',
  logLabel: 'Rules of the check-in table',
  stations: ['office'],
  input,
  run({ book, line }, { saleId, licenceRequired, duesUntil }) {
    const sale = saleById(book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
    if (duesUntil !== null && duesUntil < sale.heldOn) {
      const message = `Dues until ${duesUntil} would run out before the sale of ${sale.heldOn}: enter a later day.`;
      return refuse('malformed', message, 'duesUntil');
    }
    book.db.update(saleTable).set({ licenceRequired, duesUntil, line }).where(eq(saleTable.id, saleId)).run();
    return accept({ saleId, licenceRequired, duesUntil });
  },
});

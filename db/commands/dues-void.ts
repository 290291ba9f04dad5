import { and, eq, gt, isNull } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { z } from 'zod';
import { decideVoidDues } from '#lib/dues.ts';
import { accept, refuse } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { rowId, someText } from '../inputs.ts';
import { personById, type SaleRow, saleById } from '../queries/find.ts';
import { type DuesRow, saveDuesVoided } from '../save/dues.ts';
import { charge, dues, payment, seller } from '../schema/index.ts';

const input = z.strictObject({ duesId: rowId, reason: someText });

/** Takes dues back that were taken by mistake: the money and the membership, each by a further row. */
export const duesVoid = defineCommand({
  name: 'dues.void',
  summary: 'Takes dues back, with the reason: the money, and the membership they bought.',
  logLabel: 'Dues taken back',
  stations: ['intake', 'office'],
  input,
  run(context, { duesId, reason }) {
    const { db } = context.book;
    const row = db.select().from(dues).where(eq(dues.id, duesId)).get();
    const sale = row && saleOf(context, row);
    if (!row || !sale || row.voidsId !== null) {
      return refuse('unknown', 'These dues are not in the book: reload the page.', 'duesId');
    }
    const name = personById(context.book, row.personId)?.name ?? '';
    const voided = db.select().from(dues).where(eq(dues.voidsId, duesId)).get() !== undefined;
    const decided = decideVoidDues({ name, stage: sale.stage, voided, laterStand: laterStand(context, row) });
    if (!decided.ok) return decided;
    return accept({ duesId: saveDuesVoided(context, row, { named: sale, reason }), voidsId: duesId });
  },
});

/** The sale at which the money changed hands. */
function saleOf({ book }: CommandContext, { chargeId, paymentId }: DuesRow): SaleRow | undefined {
  const { db } = book;
  const found =
    chargeId === null
      ? db
          .select({ saleId: payment.saleId })
          .from(payment)
          .where(eq(payment.id, paymentId ?? 0))
          .get()
      : db
          .select({ saleId: seller.saleId })
          .from(charge)
          .innerJoin(seller, eq(seller.id, charge.sellerId))
          .where(eq(charge.id, chargeId))
          .get();
  return found && saleById(book, found.saleId);
}

function laterStand({ book }: CommandContext, { id, personId }: DuesRow): boolean {
  const voiding = alias(dues, 'voiding');
  const later = book.db
    .select({ id: dues.id })
    .from(dues)
    .leftJoin(voiding, eq(voiding.voidsId, dues.id))
    .where(and(eq(dues.personId, personId), gt(dues.id, id), isNull(dues.voidsId), isNull(voiding.id)))
    .get();
  return later !== undefined;
}

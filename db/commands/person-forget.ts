import { eq, sql } from 'drizzle-orm';
import { z } from 'zod';
import { decideForget } from '#lib/decide-forget.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, someText } from '../inputs.ts';
import type { Book } from '../open.ts';
import { personById } from '../queries/find.ts';
import { blankRows, redactLines } from '../save/person.ts';
import { particulars, partner, sale, settlement } from '../schema/index.ts';

const input = z.strictObject({ personId: rowId, reason: someText });

/** Removes where a person is reached, once no money or law asks for it; who sold and bought what stays. */
export const personForget = defineCommand({
  name: 'person.forget',
  summary: "Removes a person's contact data from the book and its log, once all their sales are closed.",
  logLabel: 'Contact data removed',
  stations: ['office'],
  input,
  run(context, { personId }) {
    if (!personById(context.book, personId)) {
      return refuse('unknown', 'This person is not in the book: find them again.', 'personId');
    }
    const decided = decideForget({ sales: salesOf(context.book, personId), sheets: sheetsOf(context.book, personId) });
    if (!decided.ok) return decided;
    blankRows(context, personId, decided.value);
    const lines = redactLines(context, personId, decided.value);
    return accept({ personId, removed: [...decided.value], lines: lines.map(({ line, sum }) => ({ line, sum })) });
  },
});

function salesOf({ db }: Book, personId: number) {
  return db
    .select({ name: sale.name, stage: sale.stage })
    .from(particulars)
    .innerJoin(sale, eq(sale.id, particulars.saleId))
    .where(eq(particulars.personId, personId))
    .all();
}

function sheetsOf({ db }: Book, personId: number): number {
  const found = db
    .select({ n: sql<number>`count(*)` })
    .from(settlement)
    .innerJoin(partner, eq(partner.sellerId, settlement.sellerId))
    .where(eq(partner.personId, personId))
    .get();
  return found?.n ?? 0;
}

import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { decideClosing } from '#lib/decide-bid.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { moment, rowId } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { timeZoneOf } from '../queries/local-days.ts';
import { sale } from '../schema/index.ts';

const input = z.strictObject({
  saleId: rowId,
  /** Null where the bids are open until somebody closes them. */
  closesAt: moment.nullable(),
  answerBy: moment.nullable().default(null),
});

/** Says when the written bids close, and until when a seller may accept one below the minimum. */
export const bidsClosing = defineCommand({
  name: 'bids.closing',
  summary: 'Says when the written bids of a sale close, and until when its sellers answer.',
  logLabel: 'Closing of the written bids set',
  stations: ['block', 'office'],
  input,
  run({ book, line }, { saleId, closesAt, answerBy }) {
    const row = saleById(book, saleId);
    if (!row) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const times = { closedAt: row.bidsClosedAt, closesAt, answerBy, timeZone: timeZoneOf(book) };
    const decided = decideClosing({ bidding: row.bidding, ...times });
    if (!decided.ok) return decided;
    const said = { bidsCloseAt: closesAt, sellersAnswerBy: answerBy, line };
    book.db.update(sale).set(said).where(eq(sale.id, saleId)).run();
    return accept({ saleId, closesAt, answerBy });
  },
});

import * as z from 'zod';
import { postArrivalVoiding } from '#db/account/post.ts';
import { accountBalance } from '#db/account/queries.ts';
import { defineCommand, defineSaleCommand } from '#db/book/command.ts';
import { rowBy } from '#db/book/find.ts';
import { dateOrNull, price, rowId, someReason } from '#db/book/inputs.ts';
import { addRow } from '#db/book/rows.ts';
import { dayIn } from '#db/sale/queries.ts';
import { arrival } from '#db/schema/index.ts';
import { ARRIVING_ACCOUNTS } from '#lib/account/account.ts';
import { ARRIVING, decideArrival, decideArrivalVoid, FEE_KEPT } from '#lib/bank/arrival.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { saveArrival } from './save.ts';

/** Also of a closed sale. It stands on the statement at once: that is where the treasurer read it. */
export const bankArrive = defineSaleCommand({
  name: 'bank.arrive',
  summary: 'Records card money, or other money, that arrived on the bank account. What is missing of it is a fee.',
  logLabel: 'Arrived at the bank',
  stations: ['payout', 'office'],
  input: z.strictObject({
    saleId: rowId,
    method: z.enum(ARRIVING),
    /** How much of what was paid it is for. */
    amount: price,
    arrived: price,
    /** The day on the statement, where it is not today. */
    day: dateOrNull.default(null),
    answered: z.array(z.literal(FEE_KEPT)).max(1).default([]),
  }),
  run(context, { saleId, method, amount: amountCents, arrived: arrivedCents, day: given, answered }) {
    const { book, at } = context;
    const today = dayIn(book, at);
    const day = given ?? today;
    const lyingCents = accountBalance(book, saleId, ARRIVING_ACCOUNTS[method]);
    const decided = decideArrival({ lyingCents, day, today }, { method, amountCents, arrivedCents, answered });
    if (!decided.ok) return decided;
    const feeCents = decided.value;
    return accept({ arrivalId: saveArrival(context, { saleId, method, day, amountCents, feeCents }) });
  },
});

const arrivalById = rowBy(arrival, 'id');
const arrivalThatVoids = rowBy(arrival, 'voidsId');

export const arrivalVoid = defineCommand({
  name: 'arrival.void',
  summary: 'Takes back, with the reason, that card money or other money arrived. It waits again.',
  logLabel: 'Arrival voided',
  stations: ['payout', 'office'],
  input: z.strictObject({ arrivalId: rowId, reason: someReason }),
  run(context, { arrivalId, reason }) {
    const row = arrivalById(context.book, arrivalId);
    if (!row) return refuse('unknown', 'This arrival is not in the book: reload the page.', 'arrivalId');
    const voided = arrivalThatVoids(context.book, arrivalId) !== undefined;
    const decided = decideArrivalVoid({ voids: row.voidsId !== null, voided });
    if (!decided.ok) return decided;
    const { id: voidsId, line: _line, ...fields } = row;
    addRow(context, arrival, { ...fields, voidsId, reason });
    postArrivalVoiding(context, arrivalId);
    return accept({ arrivalId });
  },
});

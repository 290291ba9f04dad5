/** Writes a deposit and an arrival with their entries: for the commands, and for a folder that is taken in. */
import { postArrival, postDeposit } from '#db/account/post.ts';
import type { CommandContext } from '#db/book/command.ts';
import { addRow } from '#db/book/rows.ts';
import { arrival, deposit, depositItem } from '#db/schema/index.ts';
import { ARRIVING_WORDS, type Arrival } from '#lib/bank/arrival.ts';
import type { TakenCheck } from '#lib/bank/deposit.ts';
import { type Cents, subtractCents, sumOf, ZERO } from '#lib/money/money.ts';
import { countWords } from '#lib/result/text.ts';

interface Banked {
  readonly saleId: number;
  /** ISO 8601 date. */
  readonly day: string;
  readonly cashCents: Cents;
  readonly checks: readonly Pick<TakenCheck, 'paymentId' | 'amountCents'>[];
}

/** Gives the number of the deposit. */
export function saveDeposit(context: CommandContext, { saleId, day, cashCents, checks }: Banked): number {
  const depositId = addRow(context, deposit, { saleId, day, cashCents });
  for (const { paymentId } of checks) addRow(context, depositItem, { depositId, paymentId });
  const what = [
    ...(checks.length > 0 ? [countWords(checks.length, 'check')] : []),
    ...(cashCents > ZERO ? ['cash'] : []),
  ];
  const memo = `Deposit ${depositId}: ${what.join(' and ')}`;
  postDeposit(context, { saleId, depositId, day, memo, checksCents: sumOf(checks, 'amountCents'), cashCents });
  return depositId;
}

type Arrived = Pick<Arrival, 'method' | 'day' | 'amountCents' | 'feeCents'> & { readonly saleId: number };

/** Gives the row's id. It stands on the statement at once: that is where it was read. */
export function saveArrival(context: CommandContext, fields: Arrived): number {
  const { amountCents, feeCents, ...entry } = fields;
  const arrivalId = addRow(context, arrival, fields);
  const memo = `${ARRIVING_WORDS[fields.method]} arrived`;
  postArrival(context, { ...entry, arrivalId, memo, arrivedCents: subtractCents(amountCents, feeCents), feeCents });
  return arrivalId;
}

/** What is brought to the bank: checks that wait and cash that lies outside the drawer, each once. */
import { longDate, shortDate } from '#lib/date/date.ts';
import { type Cents, showMoney, sumOf, ZERO } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { cell, type ListPaper, listPaper, strongCell, tableOf } from '#lib/paper/list.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { countWords } from '#lib/result/text.ts';
import { clean } from '#lib/settlement/spelling.ts';

/** A check that was taken in: the payment, whose it is, and what stands on it. */
export interface TakenCheck {
  readonly paymentId: number;
  /** `buyer 10`, `seller 3`, or empty for dues of a person without a number. */
  readonly who: string;
  readonly name: string;
  readonly reference: string;
  /** How it was paid, as `check 7408`, whatever of it the reference says already. */
  readonly by: string;
  readonly amountCents: Cents;
  /** ISO 8601 date, as the association has it. */
  readonly takenOn: string;
}

export interface Deposit {
  readonly depositId: number;
  /** ISO 8601 date. */
  readonly day: string;
  readonly cashCents: Cents;
  readonly checks: readonly TakenCheck[];
  readonly totalCents: Cents;
  /** Why it was voided, or null where it stands. */
  readonly voided: string | null;
}

export interface DepositContext {
  /** The checks of the sale that are in no deposit. */
  readonly waiting: readonly TakenCheck[];
  /** The deposit that a payment is in already. */
  readonly bankedIn: (paymentId: number) => number | undefined;
  /** Cash outside the drawer; below nothing while the float of an open drawer is out. */
  readonly outsideCents: Cents;
  /** ISO 8601 dates: the day of the deposit, and the day on which it is entered. */
  readonly day: string;
  readonly today: string;
}

export function decideDeposit(
  { waiting, bankedIn, outsideCents, day, today }: DepositContext,
  { paymentIds, cashCents }: { readonly paymentIds: readonly number[]; readonly cashCents: Cents },
): Result<readonly TakenCheck[]> {
  if (paymentIds.length === 0 && cashCents === ZERO) {
    return refuse('missing', 'Tick the checks, or enter the cash, that went to the bank.', 'paymentIds');
  }
  if (new Set(paymentIds).size < paymentIds.length) {
    return refuse('malformed', 'A check is listed twice: tick each check once.', 'paymentIds');
  }
  const byId = new Map(waiting.map((one) => [one.paymentId, one]));
  for (const paymentId of paymentIds) {
    const banked = byId.has(paymentId) ? undefined : bankedIn(paymentId);
    if (banked !== undefined) {
      return refuse('already', `Payment ${paymentId} is in deposit ${banked} already: leave it out.`, 'paymentIds');
    }
    if (!byId.has(paymentId)) {
      return refuse(
        'unknown',
        `Payment ${paymentId} is no check that waits to be banked: reload the page.`,
        'paymentIds',
      );
    }
  }
  const most = outsideCents > ZERO ? outsideCents : ZERO;
  if (cashCents > most) {
    const message = `${showMoney(most)} of cash lies outside the drawer: enter no more than that, or take cash out of the drawer at the Till first.`;
    return refuse('too_large', message, 'cash');
  }
  if (day > today) {
    return refuse('conflict', `${shortDate(day)} is still to come: enter the day on which it was banked.`, 'day');
  }
  const checks = paymentIds.flatMap((paymentId) => byId.get(paymentId) ?? []);
  const later = checks.find(({ takenOn }) => takenOn > day);
  if (later) {
    const message = `The check of ${later.name} was taken in on ${shortDate(later.takenOn)}: enter that day or a later one.`;
    return refuse('conflict', message, 'day');
  }
  return accept(checks);
}

export interface DepositVoidContext {
  /** The row is itself the voiding of another. */
  readonly voids: boolean;
  readonly voided: boolean;
  /** The day on which it stands on a statement, or null. */
  readonly clearedOn: string | null;
  /** A check of it came back from the bank. */
  readonly cameBack: boolean;
}

export function decideDepositVoid({ voids, voided, clearedOn, cameBack }: DepositVoidContext): Result<null> {
  const field = 'depositId';
  if (voids) return refuse('not_allowed', 'This row takes back another deposit: record the deposit anew.', field);
  if (voided) return refuse('already', 'This deposit was already voided.', field);
  if (clearedOn !== null) {
    const message = `This deposit is on the statement of ${shortDate(clearedOn)}: take that mark away first.`;
    return refuse('conflict', message, field);
  }
  if (!cameBack) return accept(null);
  return refuse(
    'conflict',
    'A check of this deposit came back from the bank, so the deposit was made: leave it.',
    field,
  );
}

/** Own words; common practice, no source. */
const COUNT_AGAIN = 'Count it once more at the counter, and keep the bank’s receipt with this slip.';

/** The slip that goes to the bank: every check, the cash, and what they come to. */
export function depositSlip(context: PaperContext, deposit: Deposit): ListPaper {
  const { depositId, day, cashCents, checks, totalCents, voided } = deposit;
  const { currency } = context.sale;
  const checksCents = sumOf(checks, 'amountCents');
  const list = tableOf<TakenCheck>(
    checks,
    [
      ['words', 'Check of', ({ name, who }) => cell(clean(name), who)],
      ['words', 'Reference', ({ reference }) => clean(reference)],
      ['words', 'Taken in', ({ takenOn }) => longDate(takenOn)],
      ['money', 'Amount', ({ amountCents }) => showMoney(amountCents)],
    ],
    { title: 'Checks', none: 'No check.', sum: countWords(checks.length, 'check'), sumAmount: showMoney(checksCents) },
  );
  const sums = [
    [cell('Checks'), cell(showMoney(checksCents))],
    [cell('Cash'), cell(showMoney(cashCents))],
    [strongCell('Deposit'), strongCell(showMoney(totalCents))],
  ];
  const columns = [
    ['words', '', ([label = cell('')]) => label],
    ['money', currency, ([, words = cell('')]) => words],
  ] as const satisfies Parameters<typeof tableOf<(typeof sums)[number]>>[1];
  return listPaper(context, {
    title: 'Deposit slip',
    issuedWords: `Banked ${longDate(day)}`,
    number: { label: 'Deposit', words: String(depositId) },
    result: { label: 'To the bank', words: `${showMoney(totalCents)} ${currency}` },
    opening: voided === null ? [] : [`This deposit is void: ${clean(voided)}`],
    tables: [list, tableOf(sums, columns, { title: 'In all' })],
    remarks: [COUNT_AGAIN],
  });
}

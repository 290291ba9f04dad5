/** Everything that the page of the bank shows: what waits, the deposits, and the account beside the statement. */
import { accountBalance } from '#db/account/queries.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { ACCOUNTS } from '#lib/account/account.ts';
import type { Deposit, TakenCheck } from '#lib/bank/deposit.ts';
import { ageWords, reconcile, statementSteps } from '#lib/bank/reconcile.ts';
import { parseDate } from '#lib/date/date.ts';
import { type Cents, formatMoney, parseMoney, ZERO } from '#lib/money/money.ts';
import { movedWords } from '#lib/payment/amount-words.ts';
import { dateInWords } from '#lib/settlement/spelling.ts';
import { type BankEntryRow, bankEntries, checksGood, checksWaiting, depositsOf } from './queries.ts';

export interface StatementLine {
  readonly entryId: number;
  /** What it is, of which sale, of which day and how much. */
  readonly words: string;
  readonly amount: string;
  readonly age: string;
  /** So old that a bank need not pay it any more. */
  readonly stale: boolean;
  readonly clearedOn: string | null;
}

/** What was typed from the statement; each is empty where nothing was. */
export interface Typed {
  readonly day: string;
  readonly statement: string;
  readonly other: string;
}

export interface BankView {
  readonly waiting: readonly TakenCheck[];
  /** Cash outside the drawer, as it would be typed; empty for none. */
  readonly cash: string;
  readonly deposits: readonly Deposit[];
  /** The checks that may have come back. */
  readonly taken: readonly TakenCheck[];
  readonly upTo: string;
  readonly wrong: string | null;
  readonly steps: ReturnType<typeof statementSteps>['steps'];
  readonly difference: string | null;
  readonly checksOut: readonly StatementLine[];
  readonly inTransit: readonly StatementLine[];
  readonly cleared: readonly StatementLine[];
}

export function bankView(book: Book, sale: Pick<SaleRow, 'id'>, typed: Typed, today: string): BankView {
  const day = parseDate(typed.day);
  const upTo = day.ok ? day.value : today;
  const statement = amountTyped(typed.statement);
  const other = amountTyped(typed.other);
  const figures = reconcile(bankEntries(book), upTo);
  const outside = accountBalance(book, sale.id, ACCOUNTS.outside);
  const line = (entry: BankEntryRow) => lineOf(entry, upTo);
  return {
    waiting: checksWaiting(book, sale.id),
    cash: outside > ZERO ? formatMoney(outside) : '',
    deposits: depositsOf(book, sale.id),
    taken: checksGood(book, sale.id),
    upTo,
    wrong: [typed.day === '' || day.ok ? null : day.message, statement.wrong, other.wrong].find((one) => one) ?? null,
    ...statementSteps(figures, { otherCents: other.cents ?? ZERO, saysCents: statement.cents }),
    checksOut: figures.checksOut.map(line),
    inTransit: figures.inTransit.map(line),
    cleared: figures.cleared.map(line),
  };
}

function amountTyped(text: string): { readonly cents: Cents | null; readonly wrong: string | null } {
  if (text.trim() === '') return { cents: null, wrong: null };
  const read = parseMoney(text, { allowNegative: true });
  return read.ok ? { cents: read.value, wrong: null } : { cents: null, wrong: read.message };
}

function lineOf({ entryId, day, memo, amountCents, clearedOn, sale }: BankEntryRow, upTo: string): StatementLine {
  const { words: age, stale } = ageWords({ day }, upTo);
  const words = `${memo}, ${sale}, ${dateInWords(day)}`;
  return { entryId, words, amount: movedWords(amountCents), age, stale: stale && amountCents < ZERO, clearedOn };
}

/** Everything that the page of the bank shows: what waits, the deposits, and the account beside the statement. */
import { accountBalance } from '#db/account/queries.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { spreadsheetText } from '#db/exchange/csv.ts';
import { bookGround } from '#db/lot/papers.ts';
import { ACCOUNTS, ARRIVING_ACCOUNTS } from '#lib/account/account.ts';
import { ARRIVING, type Arrival, type Arriving } from '#lib/bank/arrival.ts';
import type { Deposit, TakenCheck } from '#lib/bank/deposit.ts';
import { ageWords, belowZeroWords, reconcile, statementSteps } from '#lib/bank/reconcile.ts';
import { RECONCILIATION_COLUMNS, reconciliationPaper, reconciliationRows } from '#lib/bank/reconcile-paper.ts';
import { shortDate } from '#lib/date/date.ts';
import { readDate } from '#lib/date/typed-date.ts';
import { type Cents, formatMoney, readMoney, ZERO } from '#lib/money/money.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { movedWords } from '#lib/payment/amount-words.ts';
import { compareCodePoints } from '#lib/result/text.ts';
import { arrivalsOf, type BankEntryRow, bankEntries, checksGood, checksWaiting, depositsOf } from './queries.ts';

export interface StatementLine {
  readonly entryId: number;
  /** ISO 8601 date. */
  readonly day: string;
  /** What it is, of which sale, of which day and how much. */
  readonly words: string;
  readonly amount: string;
  readonly amountCents: Cents;
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
  /** Card money and other money that has not arrived, as it would be typed. */
  readonly lying: readonly { readonly method: Arriving; readonly amount: string }[];
  readonly arrivals: readonly Arrival[];
  readonly deposits: readonly Deposit[];
  /** The checks that may have come back. */
  readonly taken: readonly TakenCheck[];
  readonly upTo: string;
  readonly wrong: string | null;
  readonly steps: ReturnType<typeof statementSteps>['steps'];
  readonly difference: string | null;
  /** What is said where the book has the account below zero. */
  readonly below: string | null;
  readonly checksOut: readonly StatementLine[];
  readonly inTransit: readonly StatementLine[];
  readonly returned: readonly StatementLine[];
  /** The newest marks, and how many there are. */
  readonly cleared: readonly StatementLine[];
  readonly clearedCount: number;
}

/** So many marks are shown, the newest first: of an older one, the day of that statement is typed. */
const MOST_MARKS = 200;

export function bankView(book: Book, sale: Pick<SaleRow, 'id'>, typed: Typed, today: string): BankView {
  const { upTo, figures, otherCents, saysCents, wrong } = compare(book, typed, today);
  const outside = accountBalance(book, sale.id, ACCOUNTS.outside);
  const line = (entry: BankEntryRow) => lineOf(entry, upTo);
  const newest = [...figures.cleared].sort((a, b) => compareCodePoints(b.clearedOn ?? '', a.clearedOn ?? ''));
  return {
    waiting: checksWaiting(book, sale.id),
    cash: asTyped(outside),
    lying: ARRIVING.flatMap((method) => {
      const amount = asTyped(accountBalance(book, sale.id, ARRIVING_ACCOUNTS[method]));
      return amount === '' ? [] : [{ method, amount }];
    }),
    arrivals: arrivalsOf(book, sale.id),
    deposits: depositsOf(book, sale.id),
    taken: checksGood(book, sale.id),
    ...{ upTo, wrong },
    below: belowZeroWords(figures.bookCents),
    ...statementSteps(figures, { otherCents, saysCents }),
    checksOut: figures.checksOut.map(line),
    inTransit: figures.inTransit.map(line),
    returned: figures.returned.map(line),
    clearedCount: figures.cleared.length,
    cleared: newest.slice(0, MOST_MARKS).reverse().map(line),
  };
}

/** What waits, as it would be typed; empty for none. */
function asTyped(amount: Cents): string {
  return amount > ZERO ? formatMoney(amount) : '';
}

/** The account beside what was typed of the statement. */
function compare(book: Book, typed: Typed, today: string) {
  const day = readDate(typed.day);
  const upTo = day.ok ? day.value : today;
  const statement = amountTyped(typed.statement);
  const other = amountTyped(typed.other);
  const wrongs = [typed.day === '' || day.ok ? null : day.message, statement.wrong, other.wrong];
  return {
    upTo,
    figures: reconcile(bankEntries(book), upTo),
    ...{ otherCents: other.cents ?? ZERO, saysCents: statement.cents },
    wrong: wrongs.find((one) => one) ?? null,
  };
}

/** The comparison as a paper. `today` is an ISO 8601 date. */
export function reconciliationOf(book: Book, typed: Typed, today: string): ListPaper {
  return reconciliationPaper(bookGround(book, today), compare(book, typed, today));
}

/** The same as the text of a CSV file. */
export function reconciliationFile(book: Book, typed: Typed, today: string): string {
  return spreadsheetText(RECONCILIATION_COLUMNS, reconciliationRows(compare(book, typed, today)));
}

function amountTyped(text: string): { readonly cents: Cents | null; readonly wrong: string | null } {
  if (text.trim() === '') return { cents: null, wrong: null };
  const read = readMoney(text, { allowNegative: true });
  return read.ok ? { cents: read.value, wrong: null } : { cents: null, wrong: read.message };
}

function lineOf({ entryId, day, memo, amountCents, clearedOn, sale }: BankEntryRow, upTo: string): StatementLine {
  const { words: age, stale } = ageWords({ day }, upTo);
  const words = `${memo}, ${sale}, ${shortDate(day)}`;
  return {
    ...{ entryId, day, words, amount: movedWords(amountCents), amountCents, age, clearedOn },
    stale: stale && amountCents < ZERO,
  };
}

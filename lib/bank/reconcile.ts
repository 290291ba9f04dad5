/**
 * The bank account beside the bank's statement. What the book has and the statement has not yet is outstanding: checks
 * on their way, and deposits in transit. Without them the two are the same (bookkeeping as every textbook has it, from
 * memory).
 */
import { daysBetween, shortDate } from '#lib/date/date.ts';
import { addCents, type Cents, negate, showMoney, subtractCents, sumOf, ZERO } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

/** An entry of the journal that moves money on the bank account: in above nothing, out below. */
export interface BankEntry {
  readonly entryId: number;
  /** ISO 8601 date. */
  readonly day: string;
  readonly memo: string;
  readonly amountCents: Cents;
  readonly reversesId: number | null;
  /** Of a check that came back: the entry of the deposit that it was in, which stays whole: the bank shows both. */
  readonly withId: number | null;
  /** The day on which it stands on a statement, or null. */
  readonly clearedOn: string | null;
}

export interface Reconciled<T extends BankEntry> {
  readonly bookCents: Cents;
  readonly clearedCents: Cents;
  /** Money out that the bank has not paid, the oldest first. */
  readonly checksOut: readonly T[];
  /** Money in that the bank does not show yet. */
  readonly inTransit: readonly T[];
  /** Checks that came back and that the bank does not show as taken off yet: each a line of its own, as its deposit is. */
  readonly returned: readonly T[];
  readonly cleared: readonly T[];
  /** What the statement should say: the book's balance, what is still out added and what is in transit taken off. */
  readonly statementCents: Cents;
}

/**
 * Entries that took each other back on the account itself, such as a stopped check: neither ever comes to the bank. A
 * check that came back is not among them, for its deposit was made.
 */
export function takenBack(entries: readonly BankEntry[]): ReadonlySet<number> {
  const ids = new Set(entries.map(({ entryId }) => entryId));
  const pairs = entries.flatMap(({ entryId, reversesId }) =>
    reversesId !== null && ids.has(reversesId) ? [entryId, reversesId] : [],
  );
  return new Set(pairs);
}

/** The day from which an entry counts: a check came back when the bank took it off, and the book hears of it later. */
function countsFrom({ day, clearedOn }: Pick<BankEntry, 'day' | 'clearedOn'>): string {
  return clearedOn !== null && clearedOn < day ? clearedOn : day;
}

/** As things stood at the end of a day, an ISO 8601 date. */
export function reconcile<T extends BankEntry>(all: readonly T[], upTo: string): Reconciled<T> {
  const entries = all.filter((entry) => countsFrom(entry) <= upTo);
  const gone = takenBack(entries);
  const isCleared = ({ clearedOn }: BankEntry) => clearedOn !== null && clearedOn <= upTo;
  const cleared = entries.filter(isCleared);
  const open = entries.filter((entry) => !isCleared(entry) && !gone.has(entry.entryId));
  const returned = open.filter(({ withId }) => withId !== null);
  const checksOut = open.filter(({ amountCents, withId }) => withId === null && amountCents < ZERO);
  const inTransit = open.filter(({ amountCents }) => amountCents >= ZERO);
  const bookCents = sumOf(entries, 'amountCents');
  const statementCents = subtractCents(
    subtractCents(bookCents, sumOf([...checksOut, ...returned], 'amountCents')),
    sumOf(inTransit, 'amountCents'),
  );
  return {
    bookCents,
    clearedCents: sumOf(cleared, 'amountCents'),
    checksOut,
    inTransit,
    returned,
    cleared,
    statementCents,
  };
}

/** What is said of an account that the book has below zero, which no bank would; null for another. */
export function belowZeroWords(bookCents: Cents): string | null {
  if (bookCents >= ZERO) return null;
  return `By the book the account is ${showMoney(negate(bookCents))} below zero: money in it was never entered here, such as deposits of earlier sales or what lay there before.`;
}

/** How the statement stands to what it should say. */
export function differenceWords(statementCents: Cents, shouldBe: Cents): string {
  const difference = subtractCents(statementCents, shouldBe);
  if (difference === ZERO) return 'The statement and the book agree.';
  const off = showMoney(difference > ZERO ? difference : negate(difference));
  return difference > ZERO
    ? `The statement has ${off} more than the book: look for money in that was not recorded, or a check marked that was not paid.`
    : `The statement has ${off} less than the book: look for a fee of the bank, a check that came back, or a deposit marked that is not there.`;
}

/** After so many days a bank in the United States need not pay a check any more, though it may: six months, UCC § 4-404. */
const STALE_DAYS = 183;

export function ageWords(
  { day }: Pick<BankEntry, 'day'>,
  upTo: string,
): { readonly words: string; readonly stale: boolean } {
  const days = daysBetween(day, upTo);
  return { words: days === 0 ? 'today' : days === 1 ? '1 day' : `${days} days`, stale: days > STALE_DAYS };
}

interface ClearContext {
  /** Undefined where it does not touch the bank account. */
  readonly entry: BankEntry | undefined;
  readonly takenBack: boolean;
  /** Of a check that came back: the day of its deposit, which the bank took it off after. */
  readonly depositedOn?: string | undefined;
  readonly day: string;
  readonly today: string;
}

/** Whether an entry may be marked as standing on the statement of a day. */
export function decideClear({ entry, takenBack: gone, depositedOn, day, today }: ClearContext): Result<null> {
  if (!entry) return refuse('unknown', 'This is no entry of the bank account: reload the page.', 'entryIds');
  const what = `Entry ${entry.entryId} (${entry.memo})`;
  if (entry.clearedOn !== null) {
    return refuse('already', `${what} is marked already, on ${shortDate(entry.clearedOn)}.`, 'entryIds');
  }
  if (gone) return refuse('conflict', `${what} was taken back, so no bank paid it: leave it out.`, 'entryIds');
  if (day > today) {
    return refuse('conflict', `${shortDate(day)} is still to come: enter the day on the statement.`, 'day');
  }
  if (day >= (depositedOn ?? entry.day)) return accept(null);
  if (depositedOn !== undefined) {
    const message = `${what} was deposited on ${shortDate(depositedOn)}: it cannot have come back before.`;
    return refuse('conflict', message, 'day');
  }
  return refuse('conflict', `${what} is of ${shortDate(entry.day)}: the bank cannot have had it before.`, 'day');
}

/** What the book and the statement are compared by, in words; the statement's own balance only where it was typed. */
export function statementSteps(
  { bookCents, checksOut, inTransit, returned, statementCents }: Reconciled<BankEntry>,
  { otherCents, saysCents }: { readonly otherCents: Cents; readonly saysCents: Cents | null },
): { readonly steps: readonly (readonly [label: string, words: string])[]; readonly difference: string | null } {
  const shouldBe = addCents(statementCents, otherCents);
  const steps: (readonly [string, string])[] = [
    ['Balance of the book', showMoney(bookCents)],
    [`plus what the bank has not paid yet: ${checksOut.length}`, showMoney(negate(sumOf(checksOut, 'amountCents')))],
    [`less deposits in transit: ${inTransit.length}`, showMoney(sumOf(inTransit, 'amountCents'))],
    ...(returned.length === 0
      ? []
      : [
          [
            `plus checks that came back: ${returned.length}`,
            showMoney(negate(sumOf(returned, 'amountCents'))),
          ] as const,
        ]),
    ...(otherCents === ZERO ? [] : [['plus money that this book does not know', showMoney(otherCents)] as const]),
    ['What the statement should say', showMoney(shouldBe)],
    ...(saysCents === null ? [] : [['The statement says', showMoney(saysCents)] as const]),
  ];
  return { steps, difference: saysCents === null ? null : differenceWords(saysCents, shouldBe) };
}

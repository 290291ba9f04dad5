/** Which checks are written now, and with which numbers: one for each partner who has something to get. */
import { addCents, amountInWords, type Cents, showMoney, ZERO } from '#lib/money/money.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import type { Stage } from '#lib/sale/facts.ts';
import { decideSeen } from '#lib/sale/stage.ts';
import type { PartnerAccount } from '#lib/seller/account.ts';
import { listed } from '#lib/settlement/spelling.ts';
import { runsOf, takenMistake } from './check-numbers.ts';
import { type PaymentsSaid, saidLast } from './said-last.ts';

export interface CheckSeller {
  readonly sellerNo: number;
  readonly sheetNumber: number | null;
  readonly changed: boolean;
  /** Buyers whose money the sale has the seller wait for. */
  readonly waitsFor: readonly number[];
  readonly accounts: readonly PartnerAccount[];
  /** What the partners themselves still owe as buyers. */
  readonly owesAsBuyer: readonly OwedAsBuyer[];
}

export interface OwedAsBuyer {
  readonly buyerNo: number;
  readonly personId: string;
  readonly owingCents: Cents;
}

/** What is asked before a seller is paid who owes as a buyer. */
export const OWES_AS_BUYER = 'owes_as_buyer';
type Answered = readonly string[];

export interface ChecksContext {
  readonly stage: Stage;
  readonly firstNumber: number;
  readonly taken: ReadonlySet<number>;
  /** That the accounts say what is owed since the closing, which may be paid in a closed sale. */
  readonly owedSince?: boolean;
  /** What one number was paid, and what its partners are called: whoever comes second is told. */
  readonly said?: PaymentsSaid & { readonly nameOf: (personId: string) => string };
}

export interface CheckToWrite {
  readonly number: number;
  readonly sellerNo: number;
  readonly personId: string;
  readonly amountCents: Cents;
}

export const LAST_CHECK = 99_999_999;

/** What is wrong with a check number as it was typed, in a sentence; null for nothing. Form and book both ask it. */
export function checkNumberMistake(number: unknown): string | null {
  if (typeof number !== 'number' || !Number.isSafeInteger(number)) {
    return 'Enter the number on the check in digits only, without a blank.';
  }
  if (number < 1) return 'Check numbers begin at 1.';
  return number > LAST_CHECK ? `Check numbers end at ${LAST_CHECK}.` : null;
}

export function decideChecksOf(
  context: ChecksContext,
  seller: CheckSeller,
  answered: Answered = [],
): Result<readonly CheckToWrite[]> {
  const mayPay = context.owedSince && toPay(seller).length > 0;
  const stop = (mayPay ? null : closedSale(context.stage)) ?? whyNot(seller, answered, context);
  return stop ?? numbered(context, toPay(seller));
}

/** The checks of all seller numbers that can be paid, in the order given; `seen` is how many checks were seen. */
export function decideChecks(
  context: ChecksContext,
  sellers: readonly CheckSeller[],
  seen: number | null,
): Result<readonly CheckToWrite[]> {
  const stop = closedSale(context.stage);
  if (stop) return stop;
  const open = sellers.filter((seller) => whyNot(seller, []) === null).flatMap(toPay);
  if (open.length > 0) {
    const looked = decideSeen(open.length, seen, 'check');
    return looked.ok ? numbered(context, open) : looked;
  }
  const first = sellers.map((seller) => whyNot(seller, [])).find((why) => why !== null && why.code !== 'already');
  const message = 'There is nothing to pay: every seller number with a sheet is paid.';
  return first
    ? refuse(
        first.code === 'needs_answer' ? 'not_allowed' : first.code,
        `No check can be written yet. ${first.message}`,
        first.field,
      )
    : refuse('already', message, 'sellerNo');
}

function closedSale(stage: Stage): Refusal | null {
  return stage === 'closed' ? refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId') : null;
}

/** Why nothing can be paid to a seller number yet, by check or by hand, whatever is still owed. */
export function notReady(seller: CheckSeller, answered: Answered): Refusal | null {
  const who = `Seller number ${seller.sellerNo}`;
  if (seller.sheetNumber === null) return refuse('wrong_stage', `${who} has no sheet yet: issue it first.`, 'sellerNo');
  if (seller.changed) {
    const message = `${who}: the sums have changed since sheet ${seller.sheetNumber}. Issue the correction sheet first.`;
    return refuse('wrong_stage', message, 'sellerNo');
  }
  if (seller.waitsFor.length > 0) {
    const buyers = `${seller.waitsFor.length === 1 ? 'buyer' : 'buyers'} ${listed(seller.waitsFor.map(String))}`;
    return refuse('wrong_stage', `${who} waits for the money of ${buyers}: take it at the Till first.`, 'sellerNo');
  }
  const [owed] = seller.owesAsBuyer;
  if (!owed || answered.includes(OWES_AS_BUYER)) return null;
  const owes = `still owes ${showMoney(owed.owingCents)} as buyer ${owed.buyerNo}`;
  return refuse('needs_answer', `${who} ${owes}. Set it off first, or pay in full all the same?`, OWES_AS_BUYER);
}

/** A check that is written anew: what was on the old one, and whose it was. */
export interface CheckAgain {
  readonly number: number;
  readonly personId: string;
  readonly name: string;
  readonly amountCents: Cents;
  readonly currency: string;
}

/**
 * Whether a check may be written anew for its old amount: not once its sheet is no longer right, and not where less is
 * owed by now. `seller` has the accounts with the old check still counted as paid. That the sale has sellers wait for
 * their buyers is no hindrance: the first check was written already.
 */
export function decideCheckAgain(seller: CheckSeller, check: CheckAgain): Refusal | null {
  const stop = notReady({ ...seller, waitsFor: [], owesAsBuyer: [] }, []);
  if (stop) return stop;
  const account = seller.accounts.find(({ personId }) => personId === check.personId);
  const owed = addCents(account?.owingCents ?? ZERO, check.amountCents);
  if (check.amountCents <= owed) return null;
  const { number, name, currency } = check;
  const was = `Check ${number} was for ${amountInWords(check.amountCents, currency)}`;
  const now = owed > ZERO ? `only ${amountInWords(owed, currency)}` : 'nothing';
  const then = owed > ZERO ? 'void it, then write a check for what is owed.' : 'only void it.';
  return refuse('too_large', `${was}, but ${name} is owed ${now} now: ${then}`, 'checkId');
}

function whyNot(seller: CheckSeller, answered: Answered, context?: ChecksContext): Refusal | null {
  const stop = notReady(seller, answered);
  if (stop || toPay(seller).length > 0) return stop;
  const { said, firstNumber } = context ?? {};
  const last = said && saidLast(said, 'out', 'paid');
  const [account, ...others] = seller.accounts;
  const who = `Seller number ${seller.sellerNo}`;
  const name = said && account && others.length === 0 ? said.nameOf(account.personId) : who;
  const why = last ? `${name} is already paid: ${last}.` : `${who} has nothing to get.`;
  return refuse(
    'already',
    firstNumber === undefined ? why : `${why} Your check ${firstNumber} is not written.`,
    'sellerNo',
  );
}

type Unnumbered = Omit<CheckToWrite, 'number'>;

function toPay({ sellerNo, accounts }: CheckSeller): Unnumbered[] {
  return accounts
    .filter(({ owingCents }) => owingCents > ZERO)
    .map(({ personId, owingCents }) => ({ sellerNo, personId, amountCents: owingCents }));
}

/** The numbers run on from the first; a number that is used up stops the pile, because the paper checks lie in order. */
function numbered(
  { firstNumber, taken }: ChecksContext,
  checks: readonly Unnumbered[],
): Result<readonly CheckToWrite[]> {
  const run = checks.map((check, at) => ({ ...check, number: firstNumber + at }));
  const used = takenMistake(firstNumber, run.length, runsOf(taken));
  if (used) return refuse('taken', used, 'firstNumber');
  if ((run.at(-1)?.number ?? 0) > LAST_CHECK) {
    return refuse('too_large', `Check numbers end at ${LAST_CHECK}.`, 'firstNumber');
  }
  return accept(run);
}

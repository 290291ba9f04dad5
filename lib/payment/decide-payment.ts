/** Whether money may change hands now: never more out than is owed, and no more in than is owed unless somebody was asked. */
import { shortDate } from '#lib/date/date.ts';
import {
  amountInWords,
  type Cents,
  formatMoney,
  negate,
  showMoney,
  subtractCents,
  sumCents,
  ZERO,
} from '#lib/money/money.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import type { Direction, Payment, Stage } from '#lib/sale/facts.ts';
import { isHandedOver, type PartnerAccount } from '#lib/seller/account.ts';
import { type CheckSeller, notReady, OWES_AS_BUYER } from './checks.ts';
import { type PaymentsSaid, saidLast } from './said-last.ts';

/** What a worker is asked before an unusual payment is recorded. */
export const PAYMENT_QUESTIONS = ['more_than_owed', OWES_AS_BUYER, 'more_than_drawer'] as const;
type PaymentQuestion = (typeof PAYMENT_QUESTIONS)[number];

/**
 * Which station pays sellers. Each is written out, so that the compiler asks about a new one and none pays because it
 * was forgotten: a till takes money and gives change, and whoever sits there does not pay out for the association.
 */
const PAYS_SELLERS = { intake: false, block: false, till: false, payout: true, office: true } as const;
type PaymentStation = keyof typeof PAYS_SELLERS;

/** What a station's rights depend on: which way the money goes, and whether to or from a seller number. */
interface MoneyMoved {
  readonly direction: Direction;
  /** Null where it is not a seller's. */
  readonly sellerNo: number | null;
}

function mayMove(station: PaymentStation, { direction, sellerNo }: MoneyMoved): boolean {
  return direction === 'in' || sellerNo === null || PAYS_SELLERS[station];
}

/** Whether money may be recorded at this station. Buyers get back at a till what they overpaid; sellers may pay there. */
export function decidePaymentAt(station: PaymentStation, moved: MoneyMoved): Result<null> {
  if (mayMove(station, moved)) return accept(null);
  const message = `Sellers are paid at Payout: send seller number ${moved.sellerNo} to the treasurer.`;
  return refuse('not_allowed', message, 'sellerNo');
}

/** Whether a payment may be voided at this station: what was paid to a seller, by check or otherwise, where it is paid. */
export function decideVoidAt(station: PaymentStation, moved: MoneyMoved & Pick<Payment, 'method'>): Result<null> {
  const handed = isHandedOver(moved);
  if (handed ? mayMove(station, moved) : PAYS_SELLERS[station]) return accept(null);
  if (!handed) {
    return refuse(
      'not_allowed',
      'What was set off, written off or charged for a check is voided at Payout: ask the treasurer.',
      'paymentId',
    );
  }
  const what = moved.method === 'check' ? 'A check' : 'Money paid';
  const message = `${what} to seller number ${moved.sellerNo} is voided at Payout: ask the treasurer.`;
  return refuse('not_allowed', message, 'paymentId');
}

export type PaymentContext = PaymentsSaid;

export interface ProposedPayment {
  readonly direction: Direction;
  readonly amountCents: Cents;
  readonly answered: readonly PaymentQuestion[];
}

/** Above 0 the buyer owes; below, the association owes the buyer. */
export interface PayingBuyer {
  readonly buyerNo: number;
  readonly owingCents: Cents;
}

/** What there is to settle and which way the money goes; the amount is as it would be typed. */
export interface Due {
  readonly direction: Direction;
  readonly amount: string;
}

/** Above 0 they owe, below we do; null where they are even. */
export function dueOf(owing: Cents): Due | null {
  if (owing === ZERO) return null;
  return owing > ZERO
    ? { direction: 'in', amount: formatMoney(owing) }
    : { direction: 'out', amount: formatMoney(negate(owing)) };
}

export function decideBuyerPayment(
  context: PaymentContext,
  buyer: PayingBuyer,
  proposed: ProposedPayment,
): Result<null> {
  const who = `Buyer ${buyer.buyerNo}`;
  if (proposed.direction === 'in') return askAboveOwed(context, who, above(buyer.owingCents), proposed);
  const overpaid = above(negate(buyer.owingCents));
  if (proposed.amountCents <= overpaid) return accept(null);
  const back = saidLast(context, 'out', 'handed back');
  if (overpaid === ZERO) return refuse('already', `${who} has nothing to get back.${back && ` ${back}.`}`, 'amount');
  const most = `${who} has overpaid by ${amountInWords(overpaid, context.currency)}: hand back no more than that.`;
  return refuse('too_large', back ? `${most} ${back}.` : most, 'amount');
}

/** Whether so much of what somebody owes can be set off or given up: no more than there is. */
export function decideNoMore(who: string, owedCents: Cents, amountCents: Cents): Result<null> {
  if (amountCents <= above(owedCents)) return accept(null);
  if (owedCents <= ZERO) return refuse('already', `${who} owes nothing.`, 'amount');
  return refuse('too_large', `${who} owes ${showMoney(owedCents)}: enter no more than that.`, 'amount');
}

export interface SellerPayment extends ProposedPayment {
  readonly person: { readonly personId: string; readonly name: string } | null;
  readonly nameOf: (personId: string) => string;
}

/** A seller number is paid by the rules by which its checks are written, and money goes to its partners only. */
export function decideSellerPayment(
  context: PaymentContext,
  seller: CheckSeller,
  proposed: SellerPayment,
): Result<null> {
  const { person, direction } = proposed;
  const { sellerNo, accounts } = seller;
  const own = person && accounts.find(({ personId }) => personId === person.personId);
  if (person && !own) {
    const message = `${person.name} does not sell behind number ${sellerNo}: choose one of its partners.`;
    return refuse('not_allowed', message, 'personId');
  }
  if (direction === 'in') {
    const owed = (own ? [own] : accounts).map(({ owingCents }) => above(negate(owingCents)));
    return askAboveOwed(context, `Seller number ${sellerNo}`, sumCents(owed), proposed);
  }
  const stop = notReady(seller, proposed.answered);
  if (stop) return stop;
  const paid = own ?? (accounts.length === 1 ? accounts[0] : undefined);
  if (paid) return decidePaidOut(context, sellerNo, paid, proposed);
  const message = `Seller number ${sellerNo} has ${accounts.length} partners: say which of them is paid.`;
  return refuse('missing', message, 'personId');
}

function decidePaidOut(
  context: PaymentContext,
  sellerNo: number,
  account: PartnerAccount,
  proposed: SellerPayment,
): Result<null> {
  const owed = above(account.owingCents);
  if (proposed.amountCents <= owed) return accept(null);
  const name = proposed.nameOf(account.personId);
  const theirs = context.payments.filter(({ personId }) => personId === null || personId === account.personId);
  const last = saidLast({ ...context, payments: theirs }, 'out', 'paid');
  if (owed === ZERO) {
    const why = last ? `is already paid: ${last}.` : 'has nothing to get.';
    return refuse('already', `${name} ${why} Nothing is due on seller number ${sellerNo}.`, 'amount');
  }
  const still = `${name} is still owed ${amountInWords(owed, context.currency)} on seller number ${sellerNo}`;
  return refuse('too_large', `${still}${last && `: ${last}`}. Pay no more than that.`, 'amount');
}

/** Cash that goes out of an open drawer: whoever pays more than it holds is asked where the rest comes from. */
export function askBeyondDrawer(holdsCents: Cents, { amountCents, answered }: Omit<ProposedPayment, 'direction'>) {
  const holds = above(holdsCents);
  if (amountCents <= holds || answered.includes('more_than_drawer')) return accept(null);
  const message = `The drawer should hold ${showMoney(holds)}; you pay ${showMoney(amountCents)} in cash. Is cash brought from elsewhere? Put it in the drawer first where it lies there.`;
  return refuse('needs_answer', message, 'more_than_drawer');
}

/** Money in above what is owed may be a deposit or a slip: whoever takes it is asked. */
function askAboveOwed(
  context: PaymentContext,
  who: string,
  owedCents: Cents,
  { amountCents, answered }: ProposedPayment,
): Result<null> {
  if (amountCents <= owedCents || answered.includes('more_than_owed')) return accept(null);
  const say = (amount: Cents) => amountInWords(amount, context.currency);
  const last = saidLast(context, 'in', 'taken');
  const owes = `${who} owes ${owedCents === ZERO ? 'nothing' : say(owedCents)}, and you typed ${say(amountCents)}.`;
  const over = `That is ${say(subtractCents(amountCents, owedCents))} too much.`;
  return refuse('needs_answer', `${owes} ${over}${last && ` ${last}.`} Take it anyway?`, 'more_than_owed');
}

function above(amount: Cents): Cents {
  return amount > ZERO ? amount : ZERO;
}

type CheckOut = Pick<Payment, 'direction' | 'method' | 'reference'>;

/** The number of a check that goes out, where the reference holds one number and no other. */
export function checkNumberIn({ direction, method, reference }: CheckOut): number | null {
  const found = direction === 'out' && method === 'check' ? /^\D*(\d{1,8})\D*$/.exec(reference)?.[1] : undefined;
  return found === undefined ? null : Number.parseInt(found, 10);
}

export function decideCheckNumber(payment: CheckOut, taken: ReadonlySet<number>): Refusal | null {
  const number = checkNumberIn(payment);
  if (number === null || !taken.has(number)) return null;
  return refuse('taken', `Check ${number} is already written: enter the number on this check.`, 'reference');
}

/** Voiding a payment, a charge or an entry of the drawer: a further row takes it back, so that both stay to be read; it can happen once. */
export interface VoidContext {
  readonly stage: Stage;
  /** The row is itself the voiding of another. */
  readonly voids: boolean;
  readonly voided: boolean;
}

/**
 * Whether a payment may be voided. `since` is whether no closing report counts it: one that was made after the closing can
 * be voided in the closed sale too, by an entry of that day.
 */
export function decideVoidPayment({ stage, ...row }: VoidContext, since: boolean): Result<null> {
  if (stage !== 'closed' || since) return decideVoid({ ...row, stage: 'settling' });
  const message =
    'This payment was made before the sale was closed, and the closing report counts it. A check that came back or was lost is recorded at Payout, under Bank or Checks. For anything else, reopen the sale first.';
  return refuse('wrong_stage', message, 'paymentId');
}

export function decideVoid(
  { stage, voids, voided }: VoidContext,
  what: 'payment' | 'charge' | 'entry' | 'taking' = 'payment',
): Result<null> {
  const field = `${what}Id`;
  if (stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', field);
  if (voids) {
    const message = `This row takes back another ${what} and cannot be voided: record the ${what} anew.`;
    return refuse('not_allowed', message, field);
  }
  if (voided) return refuse('already', `This ${what} was already voided.`, field);
  return accept(null);
}

/** Money of a closed sale: only what came to be owed after the closing is taken, or handed back. */
export function decideAfterClosing(owedCents: Cents, amountCents: Cents, direction: Direction = 'in'): Result<null> {
  if (owedCents <= ZERO) return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
  if (amountCents <= owedCents) return accept(null);
  const act = direction === 'in' ? 'take' : 'hand back';
  const message = `The sale is closed, and ${showMoney(owedCents)} is owed since: ${act} no more than that.`;
  return refuse('too_large', message, 'amount');
}

/** How far a check has come at the bank. */
export interface AtBank {
  /** The deposit that it is in, of a check that was taken in. */
  readonly deposit: number | null;
  /** The day on which it stands on a statement, of a check that was written. */
  readonly clearedOn: string | null;
}

/** What the bank has is not voided as a slip of the pen is. */
export function decideNotAtBank({ deposit, clearedOn }: AtBank): Result<null> {
  if (deposit !== null) {
    const message = `This check is in deposit ${deposit}: record it as returned if it came back, or void the deposit first.`;
    return refuse('conflict', message, 'paymentId');
  }
  return decideNotPaid(clearedOn, 'paymentId');
}

/** A check that the bank has paid can be stopped no more. */
function decideNotPaid(clearedOn: string | null, field: string): Result<null> {
  if (clearedOn === null) return accept(null);
  const message = `The bank has paid this check: it is on the statement of ${shortDate(clearedOn)}.`;
  return refuse('conflict', `${message} Take that mark away first if it is wrong.`, field);
}

/** Whether a check can be stopped, or written anew: while it is good and the bank has not paid it, also after the closing. */
export function decideStop({ voided, clearedOn }: { readonly voided: boolean } & Pick<AtBank, 'clearedOn'>) {
  if (voided) return refuse('already', 'This check is void already.', 'checkId');
  return decideNotPaid(clearedOn, 'checkId');
}

/** Whether a payment can have come back from the bank: a good check of a buyer or a seller number. */
export function decideBounce(
  { direction, method }: Pick<Payment, 'direction' | 'method'>,
  { voids, voided, ofNumber }: Omit<VoidContext, 'stage'> & { readonly ofNumber: boolean },
): Result<null> {
  if (direction === 'out' || method !== 'check' || voids) {
    return refuse('not_allowed', 'Only a check that was taken in can come back: choose one of those.', 'paymentId');
  }
  if (voided) return refuse('already', 'This payment was already voided.', 'paymentId');
  if (ofNumber) return accept(null);
  return refuse('not_allowed', 'This check was somebody’s dues: take the dues back at Intake.', 'paymentId');
}

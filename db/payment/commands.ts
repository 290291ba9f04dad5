import * as z from 'zod';
import { savePayment, saveVoiding } from '#db/account/post.ts';
import { type CommandContext, defineCommand, defineSaleCommand, type Station } from '#db/book/command.ts';
import {
  buyerById,
  buyerByNumber,
  type PersonRow,
  particularsOf,
  personById,
  rowBy,
  type SaleRow,
  saleById,
  sellerById,
  sellerByNumber,
} from '#db/book/find.ts';
import { partyNumber, price, rowId, someReason, text } from '#db/book/inputs.ts';
import { owingOf } from '#db/buyer/accounts.ts';
import { cashAccountNow, drawerStands } from '#db/drawer/queries.ts';
import { takenCheckNumbers } from '#db/payment/check-numbers.ts';
import { bankFacts, paymentById, paymentThatVoids } from '#db/payment/queries.ts';
import { buyerFacts } from '#db/sale/facts.ts';
import { isPaymentFrozen, timeZoneOf } from '#db/sale/queries.ts';
import { dues, payment } from '#db/schema/index.ts';
import { payoutSeller } from '#db/settlement/payout.ts';
import { ACCOUNTS } from '#lib/account/account.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { type Cents, negate, sumOf, ZERO } from '#lib/money/money.ts';
import {
  askBeyondDrawer,
  decideAfterClosing,
  decideBuyerPayment,
  decideCheckNumber,
  decideNoMore,
  decideNotAtBank,
  decidePaymentAt,
  decideSellerPayment,
  decideVoidAt,
  decideVoidPayment,
  PAYMENT_QUESTIONS,
  type PaymentContext,
} from '#lib/payment/decide-payment.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

const paymentRecordInput = z.strictObject({
  saleId: rowId,
  direction: z.enum(['in', 'out']),
  buyerNo: partyNumber.nullable().default(null),
  sellerNo: partyNumber.nullable().default(null),
  /** Which partner was paid, where a seller number has several. */
  personId: rowId.nullable().default(null),
  method: z.enum(['cash', 'check', 'card', 'other']),
  amount: price,
  reference: text,
  /** The questions that were answered with yes. */
  answered: z.array(z.enum(PAYMENT_QUESTIONS)).max(PAYMENT_QUESTIONS.length).default([]),
});

interface Input extends Omit<z.output<typeof paymentRecordInput>, 'answered'> {
  readonly answered: readonly (typeof PAYMENT_QUESTIONS)[number][];
}

/**
 * Records money that changed hands with one buyer or one seller number: never more out than is owed at that moment, and
 * to a seller number at Payout and Office only.
 */
export const paymentRecord = defineSaleCommand({
  name: 'payment.record',
  summary:
    'Records money taken from or paid to a buyer or a seller number. Above what is owed none is paid, and none taken unasked. The till pays no seller number.',
  logLabel: 'Payment',
  stations: ['till', 'payout', 'office'],
  input: paymentRecordInput,
  run({ sale, ...context }, given) {
    const right = decidePaymentAt(context.station, given);
    if (!right.ok) return right;
    const since = sale.stage === 'closed' ? decideSince(context, sale, given) : accept(null);
    if (!since.ok) return since;
    const party = partyOf(context, sale, given);
    if (!party.ok) return party;
    const { saleId, direction, method, amount: amountCents, reference } = given;
    if (direction === 'out' && method === 'cash' && cashAccountNow(context.book, saleId) === ACCOUNTS.drawer) {
      const { holdsCents } = drawerStands(context.book, saleId);
      const asked = askBeyondDrawer(holdsCents, { amountCents, answered: given.answered });
      if (!asked.ok) return asked;
    }
    const used = decideCheckNumber(given, takenNumbers(context, given));
    if (used) return used;
    const fields = { saleId, direction, ...party.value, method, amountCents, reference, paidAt: context.at };
    return accept({ paymentId: savePayment(context, fields) });
  },
});

/** In a closed sale only what somebody owes since, because their check came back, is taken; a buyer gets back what was too much. */
function decideSince(context: CommandContext, sale: SaleRow, given: Input): Result<null> {
  const { direction, amount, buyerNo } = given;
  const none = direction === 'out' && buyerNo === null;
  const owed = none ? accept({ owingCents: ZERO }) : owedBy(context, sale, given);
  if (!owed.ok) return owed;
  const { owingCents } = owed.value;
  return decideAfterClosing(direction === 'in' ? owingCents : negate(owingCents), amount, direction);
}

/** Only a check that goes out bears a number of ours. */
function takenNumbers({ book }: CommandContext, { direction, method }: Input): ReadonlySet<number> {
  return direction === 'out' && method === 'check' ? takenCheckNumbers(book) : new Set();
}

interface Party {
  readonly buyerId: number | null;
  readonly sellerId: number | null;
  readonly personId: number | null;
}

/** Whose money it is, once nothing speaks against it. */
function partyOf(context: CommandContext, sale: SaleRow, given: Input): Result<Party> {
  const { buyerNo, sellerNo, personId } = given;
  if ((buyerNo === null) === (sellerNo === null)) {
    return refuse('missing', 'Say whose money it is: one buyer number or one seller number.', 'buyerNo');
  }
  const person = personId === null ? null : personById(context.book, personId);
  if (person === undefined) {
    return refuse('unknown', 'This person is not in the book: choose one of the partners.', 'personId');
  }
  if (buyerNo !== null) return buyerOf(context, sale, buyerNo, { ...given, person });
  return sellerOf(context, sale, sellerNo ?? 0, { ...given, person });
}

/** What was given, with the person that it names. */
type Given = Input & { readonly person: PersonRow | null };

function buyerOf({ book, at }: CommandContext, sale: SaleRow, buyerNo: number, given: Given): Result<Party> {
  const { person } = given;
  const row = buyerByNumber(book, sale.id, buyerNo);
  if (!row) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
  if (person && person.id !== row.personId) {
    const message = `${person.name} does not buy under number ${buyerNo}: check the card.`;
    return refuse('not_allowed', message, 'personId');
  }
  const facts = buyerFacts(book, sale.id, buyerNo);
  const account = buyerAccounts(facts).find((one) => one.buyerNo === buyerNo);
  if (!account) throw new RangeError(`buyer number ${buyerNo} has no account`);
  const payments = facts.payments.filter((payment) => payment.buyerNo === buyerNo);
  const context: PaymentContext = { currency: sale.currency, at, timeZone: timeZoneOf(book), payments };
  const decided = decideBuyerPayment(context, account, { ...given, amountCents: given.amount });
  return decided.ok ? accept({ buyerId: row.id, sellerId: null, personId: given.personId }) : decided;
}

function sellerOf({ book, at }: CommandContext, sale: SaleRow, sellerNo: number, given: Given): Result<Party> {
  const { person } = given;
  const row = sellerByNumber(book, sale.id, sellerNo);
  const found = row && payoutSeller(book, sale, sellerNo);
  if (!found) return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
  const names = new Map(found.file.people.map((one) => [one.personId, one.name]));
  const context: PaymentContext = { currency: sale.currency, at, timeZone: timeZoneOf(book), payments: found.payments };
  const decided = decideSellerPayment(context, found, {
    ...given,
    amountCents: given.amount,
    // The sale has its own references of people; whoever is not at it is behind no number of it.
    person: person && { personId: particularsOf(book, sale.id, person.id)?.ref ?? '', name: person.name },
    nameOf: (personId) => names.get(personId) ?? `Seller number ${sellerNo}`,
  });
  return decided.ok ? accept({ buyerId: null, sellerId: row.id, personId: given.personId }) : decided;
}

const duesOfPayment = rowBy(dues, 'paymentId');

const PAYS_SELLERS: readonly Station[] = ['payout', 'office'];

/** What moves no money has neither a question nor a number of its own. */
const UNSAID = { method: 'other', reference: '', answered: PAYMENT_QUESTIONS } as const;

/** Whose debt it is and how much of it is left. */
function owedBy(
  context: CommandContext,
  sale: SaleRow,
  who: Pick<Input, 'buyerNo' | 'sellerNo' | 'personId'>,
): Result<{ readonly party: Party; readonly owingCents: Cents }> {
  const { book } = context;
  const own = {
    ...UNSAID,
    ...who,
    direction: 'in',
    saleId: sale.id,
    amount: ZERO,
  } as const;
  const party = partyOf(context, sale, own);
  if (!party.ok) return party;
  const { buyerId, personId } = party.value;
  const buyer = buyerId === null ? undefined : buyerById(book, buyerId);
  if (buyer) return accept({ party: party.value, owingCents: owingOf(book, sale, buyer) });
  const accounts = payoutSeller(book, sale, who.sellerNo ?? 0)?.accounts ?? [];
  const ref = personId === null ? undefined : particularsOf(book, sale.id, personId)?.ref;
  const theirs = accounts.filter((account) => ref === undefined || account.personId === ref);
  return accept({ party: party.value, owingCents: negate(sumOf(theirs, 'owingCents')) });
}

/** Sets what a person bought off against what the person is owed as a seller: neither hands over any money. */
export const paymentSetOff = defineSaleCommand({
  name: 'payment.setoff',
  summary: 'Sets what a person owes as a buyer off against what the same person is owed as a seller.',
  logLabel: 'Set off',
  stations: PAYS_SELLERS,
  untilClosed: true,
  input: z.strictObject({ saleId: rowId, buyerNo: partyNumber, sellerNo: partyNumber, personId: rowId, amount: price }),
  run({ sale, ...context }, { saleId, buyerNo, sellerNo, personId, amount: amountCents }) {
    const bought = owedBy(context, sale, { buyerNo, sellerNo: null, personId });
    if (!bought.ok) return bought;
    const decided = decideNoMore(`Buyer ${buyerNo}`, bought.value.owingCents, amountCents);
    if (!decided.ok) return decided;
    const own = {
      ...UNSAID,
      direction: 'out',
      saleId,
      buyerNo: null,
      sellerNo,
      personId,
      amount: amountCents,
    } as const;
    const sold = partyOf(context, sale, own);
    if (!sold.ok) return sold;
    const fields = { saleId, method: 'set_off', amountCents, paidAt: context.at } as const;
    const buys = { ...bought.value.party, direction: 'in', reference: `against seller ${sellerNo}` } as const;
    const otherHalfId = savePayment(context, { ...fields, ...buys });
    const sells = { ...sold.value, direction: 'out', reference: `against buyer ${buyerNo}`, otherHalfId } as const;
    return accept({ paymentId: otherHalfId, otherHalfId: savePayment(context, { ...fields, ...sells }) });
  },
});

/**
 * Gives up what a buyer or a seller owes and nobody expects any more: an expense of the association, with the reason.
 * After the closing it is a check that came back and was never made good.
 */
export const paymentWriteOff = defineSaleCommand({
  name: 'payment.writeoff',
  summary: 'Writes off what a buyer or a seller number owes, with the reason. It is an expense, and no money.',
  logLabel: 'Debt written off',
  stations: PAYS_SELLERS,
  input: z.strictObject({
    saleId: rowId,
    buyerNo: partyNumber.nullable().default(null),
    sellerNo: partyNumber.nullable().default(null),
    personId: rowId.nullable().default(null),
    amount: price,
    reason: someReason,
  }),
  run({ sale, ...context }, { saleId, amount: amountCents, reason: reference, ...who }) {
    const owed = owedBy(context, sale, who);
    if (!owed.ok) return owed;
    const { party, owingCents } = owed.value;
    const behind = who.sellerNo === null ? [] : (payoutSeller(context.book, sale, who.sellerNo)?.accounts ?? []);
    if (who.personId === null && behind.length > 1) {
      const message = `Seller number ${who.sellerNo} has ${behind.length} partners: say whose debt it is.`;
      return refuse('missing', message, 'personId');
    }
    const name = who.buyerNo === null ? `Seller number ${who.sellerNo}` : `Buyer ${who.buyerNo}`;
    const decided = decideNoMore(name, owingCents, amountCents);
    if (!decided.ok) return decided;
    const fields = { saleId, direction: 'in', method: 'written_off', amountCents, reference } as const;
    return accept({ paymentId: savePayment(context, { ...fields, ...party, paidAt: context.at }) });
  },
});

const otherHalf = rowBy(payment, 'otherHalfId');

/** Takes a payment back by a further row, with the reason; both rows stay. */
export const paymentVoid = defineCommand({
  name: 'payment.void',
  summary:
    'Voids a payment, with the reason; after the closing one that was made after it. The till voids nothing that was paid to a seller number.',
  logLabel: 'Payment voided',
  stations: ['till', 'payout', 'office'],
  input: z.strictObject({ paymentId: rowId, reason: someReason }),
  run(context, { paymentId, reason }) {
    const row = paymentById(context.book, paymentId);
    const sale = row && saleById(context.book, row.saleId);
    if (!row || !sale) return refuse('unknown', 'This payment is not in the book: reload the page.', 'paymentId');
    const { direction, method } = row;
    const seller = row.sellerId === null ? undefined : sellerById(context.book, row.sellerId);
    const right = decideVoidAt(context.station, { direction, method, sellerNo: seller?.sellerNo ?? null });
    if (!right.ok) return right;
    if (duesOfPayment(context.book, paymentId)) {
      return refuse('not_allowed', 'This payment was somebody’s dues: take the dues back at Intake.', 'paymentId');
    }
    const voided = paymentThatVoids(context.book, paymentId) !== undefined;
    const since = !isPaymentFrozen(context.book, sale, row);
    const decided = decideVoidPayment({ stage: sale.stage, voids: row.voidsId !== null, voided }, since);
    if (!decided.ok) return decided;
    const atBank = decideNotAtBank(bankFacts(context.book, paymentId));
    if (!atBank.ok) return atBank;
    const other =
      row.otherHalfId === null ? otherHalf(context.book, row.id) : paymentById(context.book, row.otherHalfId);
    if (other) saveVoiding(context, other, reason);
    return accept({ paymentId: saveVoiding(context, row, reason), voidsId: paymentId });
  },
});

import * as z from 'zod';
import { savePayment, saveVoiding } from '#db/account/post.ts';
import { type CommandContext, defineCommand, defineSaleCommand } from '#db/book/command.ts';
import {
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
import { partyNumber, readBy, rowId, someText, text } from '#db/book/inputs.ts';
import { buyerFacts } from '#db/sale/facts.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { dues, payment } from '#db/schema/index.ts';
import { payoutSeller, takenCheckNumbers } from '#db/settlement/payout.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { parseMoney } from '#lib/money/money.ts';
import {
  decideBuyerPayment,
  decideCheckNumber,
  decidePaymentAt,
  decideSellerPayment,
  decideVoid,
  decideVoidAt,
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
  amount: readBy((typed) => parseMoney(typed, { allowZero: false })),
  reference: text,
  /** The questions that were answered with yes. */
  answered: z.array(z.enum(PAYMENT_QUESTIONS)).max(PAYMENT_QUESTIONS.length).default([]),
});

type Input = z.output<typeof paymentRecordInput>;

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
  untilClosed: true,
  input: paymentRecordInput,
  run({ sale, ...context }, given) {
    const right = decidePaymentAt(context.station, given);
    if (!right.ok) return right;
    const party = partyOf(context, sale, given);
    if (!party.ok) return party;
    const { saleId, direction, method, amount: amountCents, reference } = given;
    const used = decideCheckNumber(given, takenNumbers(context, given));
    if (used) return used;
    const fields = { saleId, direction, ...party.value, method, amountCents, reference, paidAt: context.at };
    return accept({ paymentId: savePayment(context, fields) });
  },
});

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

export const paymentById = rowBy(payment, 'id');
export const paymentThatVoids = rowBy(payment, 'voidsId');
const duesOfPayment = rowBy(dues, 'paymentId');

/** Takes a payment back by a further row, with the reason; both rows stay. */
export const paymentVoid = defineCommand({
  name: 'payment.void',
  summary: 'Voids a payment, with the reason. The till voids nothing that was paid to a seller number.',
  logLabel: 'Payment voided',
  stations: ['till', 'payout', 'office'],
  input: z.strictObject({ paymentId: rowId, reason: someText }),
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
    const decided = decideVoid({ stage: sale.stage, voids: row.voidsId !== null, voided });
    if (!decided.ok) return decided;
    return accept({ paymentId: saveVoiding(context, row, reason), voidsId: paymentId });
  },
});

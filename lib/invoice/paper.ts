/** Makes the papers of a buyer: the invoice, whose sums are those of `lib/invoice/invoice.ts`, and the receipt of a payment. */

import { type BuyerFile, METHOD_WORDS, paperWords } from '#lib/buyer/buyer.ts';
import { longDate } from '#lib/date/date.ts';
import { lotDetails } from '#lib/lot/details.ts';
import { amountInWords, type Cents, showMoney, subtractCents, ZERO } from '#lib/money/money.ts';
import { buyerBalanceWords, correctedWords } from '#lib/payment/paid-so-far.ts';
import type { Buyer, Lot, Payment } from '#lib/sale/facts.ts';
import { buyersInWords } from '#lib/sale/terms.ts';
import { isHandedOver, type PaidSplit, paidIn, splitPaid } from '#lib/seller/account.ts';
import type { SheetStep } from '#lib/settlement/model.ts';
import { associationOf, type SheetStamp, sheetTagsOf } from '#lib/settlement/parties.ts';
import { sheetSaleOf, stampOf } from '#lib/settlement/sheet.ts';
import {
  addressLines,
  clean,
  figure,
  joined,
  licenceWords,
  priceFor,
  quantityFor,
  withoutSign,
} from '#lib/settlement/spelling.ts';
import { type Billed, type BilledLot, correctionOf } from './change.ts';
import { type BuyerInvoice, invoiceBuyer } from './invoice.ts';
import type { BuyerPaperHead, InvoicePaper, ReceiptPaper } from './model.ts';

/** Own words; a fact of the trade with no source of its own: common practice. */
const BUYER_CAUTION =
  'Sales tax and exemptions are for your accountant to judge; licences, tags and permits for your wildlife agency.';

/** The part that all papers of a buyer share. Throws when the file does not hold the buyer's particulars. */
export function paperHead(file: BuyerFile): Pick<BuyerPaperHead, 'association' | 'sale' | 'buyer'> {
  const { buyer, people, association, sale } = file;
  const person = people.find(({ personId }) => personId === buyer.personId);
  if (person === undefined) throw new RangeError(`buyer number ${buyer.buyerNo}: no particulars of ${buyer.personId}`);
  return {
    association: associationOf(association),
    sale: sheetSaleOf(sale),
    buyer: {
      buyerNo: buyer.buyerNo,
      name: clean(person.name),
      address: addressLines(person),
      licence: licenceWords('Fur buyer’s licence', buyer),
      exemption: buyer.taxExempt ? `No sales tax: exemption ${clean(buyer.exemptNo)}` : '',
    },
  };
}

/**
 * The invoice as it is printed and frozen: the whole account of the buyer number. `before` is the invoice it corrects,
 * where one was issued. Throws when the facts do not hang together.
 */
export function invoicePaper(file: BuyerFile, stamp: SheetStamp, before: InvoicePaper | null = null): InvoicePaper {
  const invoice = invoiceOf(file);
  const tags = new Map(sheetTagsOf(file).map((own) => [own.lotNo, own.tags]));
  const lots = billedLots(file, invoice).map((lot) => ({ ...lot, tags: tags.get(lot.lotNo) ?? [] }));
  const paidCents = paidIn(file.payments);
  const owingCents = subtractCents(invoice.totalCents, paidCents);
  const { amountCents, premiumCents, taxCents, totalCents } = invoice;
  const totals = { lots: invoice.lots, amountCents, premiumCents, taxCents, totalCents, paidCents, owingCents };
  const now = { lots, totals, exemptNo: exemptionOf(file) };
  return {
    paper: 'invoice',
    version: 2,
    title: before === null ? 'Invoice' : 'Correcting invoice',
    ...stampOf('Invoice', stamp),
    ...paperHead(file),
    ...now,
    steps: stepsOf(invoice, file),
    payments: file.payments.map((one) => ({ label: paperWords(one), amount: figure(paidIn([one])) })),
    result: resultOf(owingCents, splitPaid(file.payments)),
    corrects: before === null ? null : correctionOf(before, now),
    remarks: [],
    terms: buyersInWords(file.sale.terms),
    caution: BUYER_CAUTION,
  };
}

export interface ToBill extends Pick<BuyerFile, 'sale' | 'goods' | 'outcomes'> {
  readonly buyer: Buyer;
  readonly lots: readonly Lot[];
}

/** What a bill would say now of what was bought: as much of an invoice as can become untrue. */
export function billedNow(file: ToBill): Billed {
  const invoice = invoiceOf(file);
  const { lots, amountCents, premiumCents, taxCents, totalCents } = invoice;
  return {
    lots: billedLots(file, invoice),
    totals: { lots, amountCents, premiumCents, taxCents, totalCents },
    exemptNo: exemptionOf(file),
  };
}

function exemptionOf({ buyer }: ToBill): string | null {
  return buyer.taxExempt ? clean(buyer.exemptNo) : null;
}

/** Sum 8 over the lots of the file. */
export function invoiceOf({ buyer, sale, lots, outcomes }: ToBill): BuyerInvoice {
  const prices = new Map(outcomes.map(({ lotNo, priceCents }) => [lotNo, priceCents]));
  const bought = lots.map((lot) => {
    const priceCents = prices.get(lot.lotNo) ?? null;
    if (priceCents === null) throw new RangeError(`lot ${lot.lotNo} was not sold to buyer ${buyer.buyerNo}`);
    return { lot, priceCents };
  });
  return invoiceBuyer(buyer, bought, sale.terms);
}

function billedLots({ lots, goods }: ToBill, { rows }: BuyerInvoice): BilledLot[] {
  const lotOf = new Map(lots.map((lot) => [lot.lotNo, lot]));
  const names = new Map(goods.map((kind) => [kind.goods, clean(kind.name)]));
  return rows.map((row) => {
    const lot = lotOf.get(row.lotNo);
    if (lot === undefined) throw new RangeError(`lot ${row.lotNo} is not in the file`);
    return {
      lotNo: row.lotNo,
      sellerNo: row.sellerNo,
      goods: names.get(row.goods) ?? clean(row.goods),
      detail: lotDetails('sheet', lot),
      quantity: quantityFor(row),
      price: { cents: row.priceCents, ...priceFor(row.priceCents, row.by) },
      amount: figure(row.amountCents),
      premium: figure(row.premiumCents),
    };
  });
}

/** From the lots to the total; what is nothing is left out, save the tax, of which an exempt buyer is told why. */
function stepsOf(invoice: BuyerInvoice, { sale: { terms }, buyer }: BuyerFile): SheetStep[] {
  const { amountCents, premiumCents, taxCents, totalCents } = invoice;
  const step = (kind: SheetStep['kind'], label: string, effectCents: Cents): SheetStep => {
    return { kind, label, words: showMoney(effectCents), effectCents };
  };
  const exempt = buyer.taxExempt ? [step('plus', 'Sales tax: exempt', ZERO)] : [];
  return [
    step('start', 'Lots', amountCents),
    ...(premiumCents === ZERO ? [] : [step('plus', `Buyer’s premium ${terms.premiumPct} %`, premiumCents)]),
    ...(taxCents === ZERO ? exempt : [step('plus', `Sales tax ${terms.taxPct} %`, taxCents)]),
    step('sum', 'Total', totalCents),
  ];
}

function resultOf(owingCents: Cents, { givenUpCents }: Pick<PaidSplit, 'givenUpCents'>): InvoicePaper['result'] {
  const words = withoutSign(owingCents);
  if (owingCents === ZERO) return { kind: 'even', label: givenUpCents === ZERO ? 'Paid in full' : EVEN, words };
  return owingCents > ZERO
    ? { kind: 'owes', label: 'To pay', words }
    : { kind: 'credit', label: 'We owe the buyer', words };
}

/** Said where part of what was owed is given up: nothing is left, and it was not paid. */
const EVEN = 'Nothing is owed any more';

export interface ReceiptPayment extends Pick<Payment, 'direction' | 'method' | 'amountCents' | 'reference'> {
  readonly paymentId: number;
  /** The day as the hall has it, an ISO 8601 date. */
  readonly paidOn: string;
  readonly paidTime: string;
  readonly worker: string;
  /** Why it was voided, or null where it stands. */
  readonly voided: string | null;
  /** The newest invoice of the buyer when it was paid, or null. */
  readonly invoiceNumber: number | null;
  /** The newest invoice since, where that one was corrected. */
  readonly correctedBy: number | null;
  /** Fees that were charged by then, and debts given up by then. */
  readonly feeCents: Cents;
  readonly givenUpCents: Cents;
  /** What the buyer owed once this payment was in; below nothing, what the association owed. */
  readonly leftCents: Cents;
}

/** The receipt as it is printed. The number is the payment's own in the book, so that it can be found again. */
export function receiptPaper(file: BuyerFile, payment: ReceiptPayment): ReceiptPaper {
  const { paymentId, direction, method, amountCents, paidOn, voided } = payment;
  const { title, done, label, signature } = actOf(payment);
  return {
    paper: 'payment-receipt',
    version: 2,
    title,
    number: paymentId,
    numberWords: `Payment ${paymentId}`,
    issuedOn: paidOn,
    issuedWords: `${done} ${longDate(paidOn)}, ${payment.paidTime}`,
    ...paperHead(file),
    direction,
    resultLabel: label,
    signature,
    method,
    amount: figure(amountCents),
    balance: voided === null ? balanceOf(payment, file.sale.currency) : [],
    facts: factsOf(payment),
    voided: voided === null ? '' : `VOID: ${clean(voided)}`,
    remarks: [],
    caution: BUYER_CAUTION,
  };
}

/** What a paper of one payment says was done: only money that changed hands is received, and signed for. */
function actOf({ direction, method }: Pick<Payment, 'direction' | 'method'>) {
  if (method === 'check_fee') return note(METHOD_WORDS[method], direction === 'out' ? 'Charged' : 'Taken off');
  if (method === 'set_off' || method === 'written_off') {
    return note(METHOD_WORDS[method], method === 'set_off' ? 'Set off' : 'Written off');
  }
  return direction === 'in'
    ? { title: 'Receipt', done: 'Taken', label: 'Received', signature: 'Received for the association' }
    : {
        title: 'Receipt for money handed back',
        ...{ done: 'Handed back', label: 'Handed back', signature: 'Received by the buyer' },
      };
}

function note(title: string, done: string) {
  return { title, done, label: done === 'Charged' ? 'Fee charged' : done, signature: '' };
}

function balanceOf(payment: ReceiptPayment, currency: string): string[] {
  const { leftCents, invoiceNumber, correctedBy, method, feeCents } = payment;
  const even = leftCents === ZERO && (method === 'written_off' || payment.givenUpCents !== ZERO);
  const said = even ? EVEN : buyerBalanceWords(leftCents, currency);
  const owes = `You owe ${amountInWords(leftCents, currency)}`;
  const fee = method !== 'check_fee' && feeCents > ZERO;
  const covers = fee ? `, the returned-check fee of ${amountInWords(feeCents, currency)} counted in` : '';
  const balance = `${method === 'check_fee' && leftCents > ZERO ? owes : said}${covers}`;
  if (invoiceNumber === null || correctedBy === null) return [balance];
  return [balance, correctedWords('Invoice', invoiceNumber, correctedBy)];
}

function factsOf({
  direction,
  method,
  reference,
  worker,
  invoiceNumber,
  feeCents,
}: ReceiptPayment): ReceiptPaper['facts'] {
  const money = isHandedOver({ method });
  const fee = feeCents > ZERO && method !== 'check_fee' ? 'the returned-check fee' : '';
  const bill = invoiceNumber === null ? '' : `invoice ${invoiceNumber}`;
  const facts = [
    { label: 'By', words: money ? METHOD_WORDS[method] : '' },
    // Why a debt was given up stays with the treasurer.
    { label: method === 'check_fee' ? 'Check' : 'Reference', words: method === 'written_off' ? '' : clean(reference) },
    { label: 'Towards', words: direction === 'in' ? joined([bill, fee], ' and ') : bill },
    { label: money ? (direction === 'in' ? 'Taken by' : 'Handed back by') : 'Recorded by', words: clean(worker) },
  ];
  return facts.filter(({ words }) => words !== '');
}

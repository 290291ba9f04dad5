/** Makes the receipt of one payment of a buyer: a view of what was recorded, drawn anew each time. */
import { type BuyerFile, METHOD_WORDS } from '#lib/buyer/buyer.ts';
import type { Cents } from '#lib/money/money.ts';
import type { Direction, Method } from '#lib/sale/facts.ts';
import { clean, dateInWords, figure } from '#lib/settlement/spelling.ts';
import type { ReceiptPaper } from './model.ts';
import { BUYER_CAUTION, paperHead } from './paper.ts';

export interface ReceiptPayment {
  readonly paymentId: number;
  readonly direction: Direction;
  readonly method: Method;
  readonly amountCents: Cents;
  readonly reference: string;
  /** The day as the hall has it, an ISO 8601 date. */
  readonly paidOn: string;
  readonly paidTime: string;
  readonly worker: string;
  /** Why it was voided, or null where it stands. */
  readonly voided: string | null;
  /** The newest invoice of the buyer when it was paid, or null. */
  readonly invoiceNumber: number | null;
}

/** The receipt as it is printed. The number is the payment's own in the book, so that it can be found again. */
export function receiptPaper(file: BuyerFile, payment: ReceiptPayment): ReceiptPaper {
  const { paymentId, direction, method, amountCents, paidOn, voided } = payment;
  const title = direction === 'in' ? 'Receipt' : 'Receipt for money handed back';
  return {
    paper: 'payment-receipt',
    version: 1,
    title,
    number: paymentId,
    numberWords: `Payment ${paymentId}`,
    issuedOn: paidOn,
    issuedWords: `${direction === 'in' ? 'Taken' : 'Handed back'} ${dateInWords(paidOn)}, ${payment.paidTime}`,
    ...paperHead(file),
    direction,
    method,
    amount: figure(amountCents),
    facts: factsOf(payment),
    voided: voided === null ? '' : `VOID: ${clean(voided)}`,
    remarks: [],
    caution: BUYER_CAUTION,
  };
}

function factsOf({ direction, method, reference, worker, invoiceNumber }: ReceiptPayment): ReceiptPaper['facts'] {
  const facts = [
    { label: 'By', words: METHOD_WORDS[method] },
    { label: 'Reference', words: clean(reference) },
    { label: 'Towards', words: invoiceNumber === null ? '' : `invoice ${invoiceNumber}` },
    { label: direction === 'in' ? 'Taken by' : 'Handed back by', words: clean(worker) },
  ];
  return facts.filter(({ words }) => words !== '');
}

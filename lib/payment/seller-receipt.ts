/**
 * The receipt of money that changed hands with a seller number in any way other than a check of the register, which has
 * its stub. The seller signs for money paid out: common practice, no source.
 */

import { METHOD_WORDS, paidBy } from '#lib/buyer/buyer.ts';
import { longDate } from '#lib/date/date.ts';
import { showMoney, sumOf, ZERO } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { BLANK, cell, type ListPaper, type ListTable, listPaper, strongCell, tableOf } from '#lib/paper/list.ts';
import type { Payment } from '#lib/sale/facts.ts';
import { isHandedOver, type Share, splitPaid } from '#lib/seller/account.ts';
import { CAUTION } from '#lib/settlement/parties.ts';
import { clean, lower } from '#lib/settlement/spelling.ts';
import { correctedWords, earlierRows, leftAfter, leftRow, type SellerPaid, sellerBalanceWords } from './paid-so-far.ts';

export interface SellerReceiptPayment extends SellerPaid, Pick<Payment, 'method' | 'reference'> {
  readonly paymentId: number;
  readonly sellerNo: number;
  /** Whom the money went to or came from, with the lines of their address. */
  readonly people: readonly { readonly name: string; readonly address: readonly string[] }[];
  /** The day as the hall has it, an ISO 8601 date. */
  readonly paidOn: string;
  readonly paidTime: string;
  readonly worker: string;
  /** Why it was voided, or null where it stands. */
  readonly voided: string | null;
  /** The newest sheet of the number when it was paid; null where it had none. */
  readonly sheet: { readonly number: number; readonly shares: readonly Share[] } | null;
  /** The newest sheet since, where that one was corrected. */
  readonly correctedBy: number | null;
}

export function sellerReceipt(context: PaperContext, payment: SellerReceiptPayment): ListPaper {
  const { paymentId, sellerNo, amountCents, paidOn, paidTime, people, voided } = payment;
  const { title, done, label, signature } = actOf(payment);
  return listPaper(context, {
    title,
    issuedOn: paidOn,
    issuedWords: `Payment ${paymentId} · ${done} ${longDate(paidOn)}, ${paidTime}`,
    number: { label: 'Seller', words: String(sellerNo) },
    parties: people.map(({ name, address }) => ({ title: clean(name), sentences: address })),
    result: { label, words: `${showMoney(amountCents)} ${context.sale.currency}` },
    opening: voided === null ? balanceOf(context, payment) : [`VOID: ${clean(voided)}`],
    tables: [factsTable(payment), ...reckoningTable(context, payment)],
    signatures: signature === '' ? [] : [signature],
    caution: CAUTION,
  });
}

/** Only money that changed hands is received, and signed for. */
function actOf({ direction, method }: Pick<SellerReceiptPayment, 'direction' | 'method'>) {
  if (!isHandedOver({ method })) {
    const words = METHOD_WORDS[method];
    return { title: words, done: words, label: words, signature: '' };
  }
  return direction === 'out'
    ? { title: 'Receipt for money paid out', done: 'Paid', label: 'Paid to you', signature: 'Received by the seller' }
    : { title: 'Receipt', done: 'Taken', label: 'Received', signature: 'Received for the association' };
}

function balanceOf({ sale }: PaperContext, { sheet, correctedBy, ...payment }: SellerReceiptPayment): string[] {
  if (sheet === null) return [];
  const { leftCents } = leftAfter(sheet.shares, payment);
  const corrected = correctedBy === null ? [] : [correctedWords('Sheet', sheet.number, correctedBy)];
  const given = leftCents === ZERO && splitPaid([...payment.earlier, payment]).givenUpCents !== ZERO;
  return [given ? 'Nothing is owed any more' : sellerBalanceWords(leftCents, sale.currency), ...corrected];
}

function factsTable({ direction, worker, sheet, ...payment }: SellerReceiptPayment): ListTable {
  const money = isHandedOver(payment);
  const facts = [
    {
      label: money ? 'By' : 'What',
      words: paidBy(payment.method === 'written_off' ? { ...payment, reference: '' } : payment),
    },
    { label: 'Towards', words: sheet === null ? '' : `sheet ${sheet.number}` },
    { label: money ? (direction === 'out' ? 'Paid by' : 'Taken by') : 'Recorded by', words: clean(worker) },
  ];
  return tableOf(
    facts.filter(({ words }) => words !== ''),
    [
      ['quantity', '', ({ label }) => label],
      ['words', '', ({ words }) => words],
    ],
  );
}

function reckoningTable({ sale }: PaperContext, { sheet, ...payment }: SellerReceiptPayment): ListTable[] {
  const { personId, direction, amountCents, voided } = payment;
  if (sheet === null || voided !== null) return [];
  const left = leftAfter(sheet.shares, payment);
  const own = sheet.shares.filter((share) => personId === null || share.personId === personId);
  const share = sumOf(own, 'shareCents');
  const rows = [
    [cell(`Share of sheet ${sheet.number}`), cell(showMoney(share))],
    ...earlierRows(left),
    [
      strongCell(
        `${direction === 'out' ? 'less' : 'plus'} ${isHandedOver(payment) ? 'this payment' : lower(METHOD_WORDS[payment.method])}`,
      ),
      strongCell(showMoney(amountCents)),
    ],
    leftRow(left),
  ];
  const table = tableOf(
    rows,
    [
      ['words', '', ([label = BLANK]) => label],
      ['money', sale.currency, ([, words = BLANK]) => words],
    ],
    { title: 'What is left' },
  );
  return [table];
}

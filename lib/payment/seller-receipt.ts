/**
 * The receipt of money that changed hands with a seller number in any way other than a check of the register, which has
 * its stub. The seller signs for money paid out: common practice, no source.
 */
import { paidBy } from '#lib/buyer/buyer.ts';
import { showMoney, sumOf } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { BLANK, cell, type ListPaper, type ListTable, listPaper, strongCell, tableOf } from '#lib/paper/list.ts';
import type { Payment } from '#lib/sale/facts.ts';
import type { Share } from '#lib/seller/account.ts';
import { CAUTION } from '#lib/settlement/parties.ts';
import { clean, dateInWords } from '#lib/settlement/spelling.ts';
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
  const { paymentId, sellerNo, direction, amountCents, paidOn, paidTime, people, voided } = payment;
  const out = direction === 'out';
  return listPaper(context, {
    title: out ? 'Receipt for money paid out' : 'Receipt',
    issuedOn: paidOn,
    issuedWords: `Payment ${paymentId} · ${out ? 'Paid' : 'Taken'} ${dateInWords(paidOn)}, ${paidTime}`,
    number: { label: 'Seller', words: String(sellerNo) },
    parties: people.map(({ name, address }) => ({ title: clean(name), sentences: address })),
    result: { label: out ? 'Paid to you' : 'Received', words: `${showMoney(amountCents)} ${context.sale.currency}` },
    opening: voided === null ? balanceOf(context, payment) : [`VOID: ${clean(voided)}`],
    tables: [factsTable(payment), ...reckoningTable(context, payment)],
    signatures: [out ? 'Received by the seller' : 'Received for the association'],
    caution: CAUTION,
  });
}

function balanceOf({ sale }: PaperContext, { sheet, correctedBy, ...payment }: SellerReceiptPayment): string[] {
  if (sheet === null) return [];
  const { leftCents } = leftAfter(sheet.shares, payment);
  const corrected = correctedBy === null ? [] : [correctedWords('Sheet', sheet.number, correctedBy)];
  return [sellerBalanceWords(leftCents, sale.currency), ...corrected];
}

function factsTable({ direction, worker, sheet, ...payment }: SellerReceiptPayment): ListTable {
  const facts = [
    { label: 'By', words: paidBy(payment) },
    { label: 'Towards', words: sheet === null ? '' : `sheet ${sheet.number}` },
    { label: direction === 'out' ? 'Paid by' : 'Taken by', words: clean(worker) },
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
    [strongCell(direction === 'out' ? 'less this payment' : 'plus this payment'), strongCell(showMoney(amountCents))],
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

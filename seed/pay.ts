/** The afternoon: buyers pay at the Till, sheets are issued, sellers are paid, and the sale is closed. */
import type { Book } from '#db/open.ts';
import { saleById } from '#db/queries/find.ts';
import { type PayoutView, payoutView } from '#db/queries/payout-view.ts';
import { saleFacts } from '#db/queries/sale-facts.ts';
import { piecesOf } from '#lib/buyer/decide-handover.ts';
import { invoiceSale } from '#lib/invoice.ts';
import { negate } from '#lib/money.ts';
import { settleSale } from '#lib/settlement.ts';
import { BUYERS } from './buyers.ts';
import type { Hall } from './check-in.ts';
import { typed } from './hand.ts';

/** Bills the named buyers, or everybody, takes what they owe, and hands them their lots. */
export function takePayments({ hand, saleId }: Hall, buyerNos?: readonly number[]): void {
  for (const invoice of invoiceSale(saleFacts(hand.book, saleId))) {
    const { buyerNo, totalCents } = invoice;
    if (buyerNos !== undefined && !buyerNos.includes(buyerNo)) continue;
    const house = BUYERS.find((one) => one.buyerNo === buyerNo);
    const method = house?.method ?? 'cash';
    const reference = method === 'check' ? `Check ${7000 + saleId * 100 + buyerNo}` : '';
    const payment = { saleId, direction: 'in', buyerNo, method, amount: typed(totalCents), reference } as const;
    hand.give('till', 'invoice.issue', { saleId, buyerNo });
    hand.give('till', 'payment.record', payment);
    const lots = invoice.lines.map(({ lotNo }) => lotNo);
    const pieces = String(piecesOf(invoice.lines));
    hand.give('till', 'handover.record', { saleId, buyerNo, lots, pieces, takenBy: house?.name ?? 'the buyer' });
  }
}

/** Issues every sheet, writes a check to each partner who has something to get, and takes what the others owe in cash. */
export function settleAndPay({ hand, saleId }: Hall): void {
  hand.give('payout', 'settlement.issue', { saleId, sellerNo: null, seen: seenAt(hand.book, saleId).ready });
  for (const { sellerNo, netCents } of settleSale(saleFacts(hand.book, saleId))) {
    if (netCents >= 0) continue;
    const owed = { direction: 'in', method: 'cash', amount: typed(negate(netCents)), reference: '' } as const;
    hand.give('payout', 'payment.record', { saleId, sellerNo, ...owed });
  }
  const seen = seenAt(hand.book, saleId).checks.count;
  hand.give('payout', 'check.write', { saleId, sellerNo: null, firstNumber: 2001 + saleId * 200, seen });
}

/** What the treasurer looks at before an act on everybody. */
function seenAt(book: Book, saleId: number): PayoutView {
  const sale = saleById(book, saleId);
  if (!sale) throw new RangeError(`there is no sale ${saleId}`);
  return payoutView(book, sale);
}

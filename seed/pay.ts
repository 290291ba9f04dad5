/** The afternoon: buyers pay at the Till, sheets are issued, sellers are paid, and the sale is closed. */
import { personByRef } from '#db/queries/find.ts';
import { saleFacts } from '#db/queries/sale-facts.ts';
import { invoiceSale } from '#lib/invoice.ts';
import { negate } from '#lib/money.ts';
import { settleSale } from '#lib/settlement.ts';
import { BUYERS } from './buyers.ts';
import type { Hall } from './check-in.ts';
import { typed } from './hand.ts';

/** Takes what the named buyers owe so far, or what everybody owes. */
export function takePayments({ hand, saleId }: Hall, buyerNos?: readonly number[]): void {
  for (const { buyerNo, totalCents } of invoiceSale(saleFacts(hand.book, saleId))) {
    if (buyerNos !== undefined && !buyerNos.includes(buyerNo)) continue;
    const method = BUYERS.find((house) => house.buyerNo === buyerNo)?.method ?? 'cash';
    const reference = method === 'check' ? `Check ${7000 + saleId * 100 + buyerNo}` : '';
    const payment = { saleId, direction: 'in', buyerNo, method, amount: typed(totalCents), reference };
    hand.give('till', 'payment.record', payment);
  }
}

/** Issues every sheet and pays each seller by check, partners apart; whoever owes pays in cash. */
export function settleAndPay({ hand, saleId }: Hall): void {
  hand.give('payout', 'settlement.issue', { saleId, sellerNo: null });
  const facts = saleFacts(hand.book, saleId);
  let check = 2000 + saleId * 200;
  for (const { sellerNo, netCents, shares } of settleSale(facts)) {
    const party = { saleId, sellerNo };
    if (netCents < 0) {
      const owed = { ...party, direction: 'in', method: 'cash', amount: typed(negate(netCents)), reference: '' };
      hand.give('payout', 'payment.record', owed);
    }
    for (const { personId: ref, shareCents } of shares) {
      if (shareCents <= 0) continue;
      check += 1;
      const personId = shares.length > 1 ? (personByRef(hand.book, ref)?.id ?? null) : null;
      const paid = { ...party, personId, direction: 'out', method: 'check', amount: typed(shareCents) };
      hand.give('payout', 'payment.record', { ...paid, reference: `Check ${check}` });
    }
  }
}

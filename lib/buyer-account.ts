/** How each buyer stands with the till: the invoice of sum 8, what was paid, and what is owing. */
import type { Payment, SaleFacts } from '#lib/facts.ts';
import { groupBy } from '#lib/group.ts';
import { type BuyerInvoice, invoiceBuyer, invoiceSale } from '#lib/invoice.ts';
import { type Cents, negate, subtractCents, sumCents } from '#lib/money.ts';

/** One buyer number's account. All money is whole cents. */
export interface BuyerAccount {
  readonly buyerNo: number;
  readonly invoice: BuyerInvoice;
  /** Money in less money handed back. */
  readonly paidCents: Cents;
  /** The invoice's total less what was paid; below nothing, the association owes the buyer. */
  readonly owingCents: Cents;
}

/** The accounts of all buyers of a sale by number, also of those who bought nothing. */
export function buyerAccounts(facts: SaleFacts): BuyerAccount[] {
  const invoices = new Map(invoiceSale(facts).map((invoice) => [invoice.buyerNo, invoice]));
  const paid = new Map<number | null, Cents[]>(
    [...groupBy(facts.payments, (payment) => payment.buyerNo)].map(([buyerNo, own]) => [buyerNo, own.map(amountIn)]),
  );
  return [...facts.buyers]
    .sort((a, b) => a.buyerNo - b.buyerNo)
    .map((buyer) => {
      const { buyerNo } = buyer;
      const invoice = invoices.get(buyerNo) ?? invoiceBuyer(buyer, [], facts.sale.terms);
      const paidCents = sumCents(paid.get(buyerNo) ?? []);
      return { buyerNo, invoice, paidCents, owingCents: subtractCents(invoice.totalCents, paidCents) };
    });
}

function amountIn({ direction, amountCents }: Payment): Cents {
  return direction === 'in' ? amountCents : negate(amountCents);
}

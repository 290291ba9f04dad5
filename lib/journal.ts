/**
 * The sale in double entry. Every entry is made of transfers, each from one account to another, so it balances by the
 * way it is built. Liabilities:Sellers:n ends at that seller's net less what was paid out, Assets:Buyers:n at the
 * buyer's total less what was paid in.
 */
import { ACCOUNTS, buyerAccount, methodAccount, partyAccount, sellerAccount } from '#lib/accounts.ts';
import type { JournalEntry } from '#lib/double-entry.ts';
import type { Charge, Payment, Sale, SaleFacts } from '#lib/facts.ts';
import { type BuyerInvoice, type InvoiceLine, invoiceSale } from '#lib/invoice.ts';
import { localDay } from '#lib/local-day.ts';
import { compareLotNo } from '#lib/lot-number.ts';
import { type Cents, negate, ZERO } from '#lib/money.ts';
import { compareCodePoints } from '#lib/order.ts';
import { type LotLine, type SellerSettlement, settleSale } from '#lib/settlement.ts';

export { accountBalances, type JournalEntry, type Posting } from '#lib/double-entry.ts';
export { ledgerText } from '#lib/ledger-text.ts';

/** So many cents that the first account is debited with and the second credited. */
interface Transfer {
  readonly debit: string;
  readonly credit: string;
  readonly amount: Cents;
}

type Draft = Omit<JournalEntry, 'number'>;

/** Every sale, premium, tax, commission, fee, charge and payment of the sale, by date, numbered from 1. */
export function journalOf(facts: SaleFacts): JournalEntry[] {
  const settlements = settleSale(facts);
  const invoices = invoiceSale(facts);
  const drafts = [
    ...lotDrafts(facts.sale, settlements, invoices),
    ...invoices.map((invoice) => taxDraft(facts.sale, invoice)),
    ...settlements.map((settlement) => numberDraft(facts.sale, settlement)),
    ...facts.charges.map((charge) => chargeDraft(facts.sale, charge)),
    ...facts.payments.map((payment) => paymentDraft(payment, facts.timeZone)),
  ];
  return drafts
    .filter(({ postings }) => postings.length > 0)
    .sort((a, b) => compareCodePoints(a.date, b.date))
    .map((draft, at) => ({ ...draft, number: at + 1 }));
}

function draft(date: string, memo: string, transfers: readonly Transfer[]): Draft {
  const postings = transfers.flatMap(({ debit, credit, amount }) => {
    if (amount === ZERO) return [];
    // An amount below nothing goes the other way about, so that neither column is ever negative.
    const [to, from, size] = amount > ZERO ? [debit, credit, amount] : [credit, debit, negate(amount)];
    return [
      { account: to, debitCents: size, creditCents: ZERO },
      { account: from, debitCents: ZERO, creditCents: size },
    ];
  });
  return { date, memo, postings };
}

function lotDrafts(sale: Sale, settlements: readonly SellerSettlement[], invoices: readonly BuyerInvoice[]): Draft[] {
  const bought = new Map(
    invoices.flatMap(({ buyerNo, lines }) => lines.map((line) => [line.lotNo, { buyerNo, line }] as const)),
  );
  return settlements
    .flatMap(({ sellerNo, lines }) => lines.map((line) => ({ sellerNo, line })))
    .sort((a, b) => compareLotNo(a.line.lotNo, b.line.lotNo))
    .map(({ sellerNo, line }) => lotDraft(sale, { sellerNo, line, bought: bought.get(line.lotNo) }));
}

interface CalledLot {
  readonly sellerNo: number;
  readonly line: LotLine;
  readonly bought: { readonly buyerNo: number; readonly line: InvoiceLine } | undefined;
}

function lotDraft(sale: Sale, { sellerNo, line, bought }: CalledLot): Draft {
  const seller = sellerAccount(sellerNo);
  const fees = [
    { debit: seller, credit: ACCOUNTS.commission, amount: line.commissionCents },
    { debit: seller, credit: ACCOUNTS.lotFees, amount: line.lotFeeCents },
    { debit: seller, credit: ACCOUNTS.noSaleFees, amount: line.noSaleFeeCents },
  ];
  if (bought === undefined) return draft(sale.heldOn, `Lot ${line.lotNo} of seller ${sellerNo} ${line.outcome}`, fees);
  const buyer = buyerAccount(bought.buyerNo);
  const given = line.donated ? ', donated' : '';
  return draft(sale.heldOn, `Lot ${line.lotNo} of seller ${sellerNo} sold to buyer ${bought.buyerNo}${given}`, [
    { debit: buyer, credit: line.donated ? ACCOUNTS.donated : seller, amount: line.amountCents },
    { debit: buyer, credit: ACCOUNTS.premium, amount: bought.line.premiumCents },
    ...fees,
  ]);
}

function taxDraft(sale: Sale, { buyerNo, taxCents }: BuyerInvoice): Draft {
  const transfer = { debit: buyerAccount(buyerNo), credit: ACCOUNTS.tax, amount: taxCents };
  return draft(sale.heldOn, `Sales tax of buyer ${buyerNo}`, [transfer]);
}

function numberDraft(sale: Sale, { sellerNo, sellerNumberFeeCents }: SellerSettlement): Draft {
  const transfer = { debit: sellerAccount(sellerNo), credit: ACCOUNTS.sellerNumbers, amount: sellerNumberFeeCents };
  return draft(sale.heldOn, `Seller number ${sellerNo}`, [transfer]);
}

const CHARGE_ACCOUNTS = { dues: ACCOUNTS.dues, advance: ACCOUNTS.advances, adjustment: ACCOUNTS.adjustments } as const;
const CHARGE_WORDS = { dues: 'Dues', advance: 'Advance', adjustment: 'Adjustment' } as const;

function chargeDraft(sale: Sale, { sellerNo, kind, how, amountCents }: Charge): Draft {
  const debit = how === 'deducted' ? sellerAccount(sellerNo) : ACCOUNTS.cash;
  const memo = `${CHARGE_WORDS[kind]} of seller ${sellerNo}, ${how === 'deducted' ? 'deducted' : 'in cash'}`;
  return draft(sale.heldOn, memo, [{ debit, credit: CHARGE_ACCOUNTS[kind], amount: amountCents }]);
}

function paymentDraft(payment: Payment, timeZone: string): Draft {
  const { direction, method, reference, amountCents } = payment;
  const money = methodAccount(method, direction);
  const party = partyAccount(payment);
  const reason = reference === '' ? '' : ` ${reference}`;
  const memo = `${direction === 'in' ? 'Paid in by' : 'Paid out to'} ${partyName(payment)}, ${method}${reason}`;
  const [debit, credit] = direction === 'in' ? [money, party] : [party, money];
  return draft(localDay(payment.paidAt, timeZone), memo, [{ debit, credit, amount: amountCents }]);
}

function partyName({ buyerNo, sellerNo, personId }: Payment): string {
  if (buyerNo !== null) return `buyer ${buyerNo}`;
  return sellerNo === null ? `person ${personId ?? 'unknown'}` : `seller ${sellerNo}`;
}

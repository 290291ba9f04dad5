/**
 * What must be true of the money of every sale, whatever happened at it. Each finding is one sentence; a sale without
 * any is sound. The parts are checked by adding them up once more, not by the functions that made them.
 */
import { ACCOUNTS, buyerAccount, sellerAccount } from '#lib/accounts.ts';
import { type BalanceLine, saleBalance } from '#lib/balance.ts';
import type { SaleFacts } from '#lib/facts.ts';
import { type BuyerInvoice, invoiceSale } from '#lib/invoice.ts';
import { accountBalances, type JournalEntry, journalOf } from '#lib/journal.ts';
import { type Cents, showMoney, subtractCents, sumCents } from '#lib/money.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement.ts';

/** Everything about the money of a sale that does not add up. */
export function moneyProblems(facts: SaleFacts): string[] {
  const settlements = settleSale(facts);
  const invoices = invoiceSale(facts);
  const journal = journalOf(facts);
  return [
    ...settlements.flatMap(settlementProblems),
    ...invoices.flatMap(invoiceProblems),
    ...journal.flatMap(entryProblems),
    ...accountProblems(facts, { settlements, invoices, journal }),
    ...saleBalance(facts).flatMap(balanceProblems),
  ];
}

/** Lines add up to the sums, the sums to the net, and the partners' shares to the net. */
export function settlementProblems(one: SellerSettlement): string[] {
  const who = `The settlement of seller ${one.sellerNo}`;
  const kept = one.lines.filter(({ donated }) => !donated);
  const off = [one.commissionCents, one.lotFeesCents, one.noSaleFeesCents, one.sellerNumberFeeCents, one.chargesCents];
  return [
    ...unequal(`${who}: gross`, one.grossCents, sumCents(kept.map(({ amountCents }) => amountCents))),
    ...unequal(`${who}: commission`, one.commissionCents, sumCents(one.lines.map((line) => line.commissionCents))),
    ...unequal(`${who}: lot fees`, one.lotFeesCents, sumCents(one.lines.map((line) => line.lotFeeCents))),
    ...unequal(`${who}: no-sale fees`, one.noSaleFeesCents, sumCents(one.lines.map((line) => line.noSaleFeeCents))),
    ...unequal(`${who}: net`, one.netCents, subtractCents(one.grossCents, sumCents(off))),
    ...unequal(`${who}: shares`, sumCents(one.shares.map(({ shareCents }) => shareCents)), one.netCents),
  ];
}

export function invoiceProblems(one: BuyerInvoice): string[] {
  const who = `The invoice of buyer ${one.buyerNo}`;
  const parts = [one.amountCents, one.premiumCents, one.taxCents];
  return [
    ...unequal(`${who}: lots`, one.amountCents, sumCents(one.lines.map(({ amountCents }) => amountCents))),
    ...unequal(`${who}: premium`, one.premiumCents, sumCents(one.lines.map(({ premiumCents }) => premiumCents))),
    ...unequal(`${who}: total`, one.totalCents, sumCents(parts)),
  ];
}

export function entryProblems({ number, memo, postings }: JournalEntry): string[] {
  const debit = sumCents(postings.map(({ debitCents }) => debitCents));
  const credit = sumCents(postings.map(({ creditCents }) => creditCents));
  return unequal(`Entry ${number} of the journal (${memo}): debit and credit`, debit, credit);
}

export function balanceProblems({ name, leftWords, left, rightWords, right, difference }: BalanceLine): string[] {
  if (difference === 0) return [];
  return [`The balance of ${name} is open: ${leftWords} ${left}, ${rightWords} ${right}.`];
}

interface Papers {
  readonly settlements: readonly SellerSettlement[];
  readonly invoices: readonly BuyerInvoice[];
  readonly journal: readonly JournalEntry[];
}

/** The journal ends where the papers say: at what each seller is still owed, each buyer still owes, and the tax. */
export function accountProblems(
  facts: Pick<SaleFacts, 'payments'>,
  { settlements, invoices, journal }: Papers,
): string[] {
  const balances = accountBalances(journal);
  const balance = (account: string) => balances.get(account) ?? sumCents([]);
  const paid = (mine: (payment: SaleFacts['payments'][number]) => boolean) =>
    sumCents(
      facts.payments.filter(mine).map(({ direction, amountCents }) => {
        return direction === 'in' ? amountCents : subtractCents(sumCents([]), amountCents);
      }),
    );
  const sellers = settlements.flatMap(({ sellerNo, netCents }) => {
    const owed = sumCents([netCents, paid((payment) => payment.sellerNo === sellerNo)]);
    return unequal(
      `The account of seller ${sellerNo}`,
      subtractCents(sumCents([]), balance(sellerAccount(sellerNo))),
      owed,
    );
  });
  const buyers = invoices.flatMap(({ buyerNo, totalCents }) => {
    const owing = subtractCents(
      totalCents,
      paid((payment) => payment.buyerNo === buyerNo),
    );
    return unequal(`The account of buyer ${buyerNo}`, balance(buyerAccount(buyerNo)), owing);
  });
  const tax = sumCents(invoices.map(({ taxCents }) => taxCents));
  const all = unequal('All accounts of the journal', sumCents(balances.values()), sumCents([]));
  return [
    ...sellers,
    ...buyers,
    ...unequal('The sales tax', subtractCents(sumCents([]), balance(ACCOUNTS.tax)), tax),
    ...all,
  ];
}

function unequal(what: string, is: Cents, ought: Cents): string[] {
  return is === ought ? [] : [`${what}: ${showMoney(is)} where it ought to be ${showMoney(ought)}.`];
}

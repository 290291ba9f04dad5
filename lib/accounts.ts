/** The names of the accounts that a sale posts to, in the trade's words. */
import type { Direction, Method, Payment } from '#lib/facts.ts';

export const ACCOUNTS = {
  commission: 'Income:Commission',
  lotFees: 'Income:Lot fees',
  noSaleFees: 'Income:No-sale fees',
  sellerNumbers: 'Income:Seller numbers',
  premium: "Income:Buyer's premium",
  donated: 'Income:Donated lots',
  dues: 'Income:Dues',
  adjustments: 'Income:Adjustments',
  tax: 'Liabilities:Sales tax',
  /** What was handed to sellers before the sale: it was posted on its own day, and deducting it takes it off here. */
  advances: 'Assets:Advances to sellers',
  cash: 'Assets:Cash',
  checks: 'Assets:Checks',
  bank: 'Assets:Bank',
  cards: 'Assets:Cards',
  other: 'Assets:Other payments',
} as const;

export function buyerAccount(buyerNo: number): string {
  return `Assets:Buyers:${buyerNo}`;
}

export function sellerAccount(sellerNo: number): string {
  return `Liabilities:Sellers:${sellerNo}`;
}

/** Where a payment lies: a check taken in waits to be banked, a check written out is drawn on the bank. */
export function methodAccount(method: Method, direction: Direction): string {
  if (method === 'cash') return ACCOUNTS.cash;
  if (method === 'card') return ACCOUNTS.cards;
  if (method === 'other') return ACCOUNTS.other;
  return direction === 'in' ? ACCOUNTS.checks : ACCOUNTS.bank;
}

/** Whose account a payment changes. Money of a person under neither a buyer's nor a seller's number is always dues. */
export function partyAccount({ buyerNo, sellerNo }: Payment): string {
  if (buyerNo !== null) return buyerAccount(buyerNo);
  return sellerNo === null ? ACCOUNTS.dues : sellerAccount(sellerNo);
}

/** What a large sale's views are put together from, of each buyer: the head of the account and what it adds to the sums. */
import { type BuyerAccount, buyerAccounts } from '#lib/buyer-account.ts';
import { type KeptPart, keptOfBuyer } from '#lib/closing/kept-parts.ts';
import { type BuyerSums, buyerSums } from '#lib/closing/sums.ts';
import type { Book } from '../open.ts';
import { type BuyerHead, headsOf } from './buyer-heads.ts';
import type { SaleRow } from './find.ts';
import { newestHandovers } from './handed.ts';
import { billedOn, invoiceStates, newestInvoices } from './invoices.ts';
import { factsOf } from './sale-facts.ts';
import type { Scope } from './scope.ts';

type Sale = Pick<SaleRow, 'id' | 'heldOn'>;

export interface BuyerPiece {
  readonly head: BuyerHead;
  /** The seller numbers that something was bought from, each once. */
  readonly sellerNos: readonly number[];
  readonly sums: BuyerSums;
  readonly kept: KeptPart;
}

/** Of the buyers of a scope, by number. */
export function buyerPieces(book: Book, sale: Sale, scope: Scope): BuyerPiece[] {
  const facts = factsOf(book, sale.id, scope);
  const accounts = buyerAccounts(facts);
  const issued = newestInvoices(book, sale.id, scope);
  const invoices = invoiceStates(book, sale.id, { scope, newest: issued });
  const heads = headsOf(book, sale, { accounts, newest: newestHandovers(book, sale.id, scope), invoices });
  const ofNumber = new Map(accounts.map((one) => [one.buyerNo, one]));
  const sums = buyerSums({ facts, invoices: billedOn(issued) }, invoicesOf(accounts));
  const sumsOf = new Map(sums.map((one) => [one.buyerNo, one]));
  return heads.flatMap((head) => {
    const [account, own] = [ofNumber.get(head.buyerNo), sumsOf.get(head.buyerNo)];
    if (!account || !own) return [];
    const { invoice } = account;
    const sellerNos = [...new Set(invoice.lines.map(({ sellerNo }) => sellerNo))];
    return [{ head, sellerNos, sums: own, kept: keptOfBuyer(invoice) }];
  });
}

function invoicesOf(accounts: readonly BuyerAccount[]) {
  return accounts.map(({ invoice }) => invoice);
}

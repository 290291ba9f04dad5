/** The facts behind the papers of a buyer number. */

import { buyerById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { takenInOf } from '#db/lot/papers.ts';
import { buyerThen, paymentRow, recordedAs } from '#db/payment/receipts.ts';
import { factsOf } from '#db/sale/facts.ts';
import { buyersIn, type Scope, scoped } from '#db/sale/scope.ts';
import { buyer } from '#db/schema/index.ts';
import { associationFacts, peopleIn, tagsIn } from '#db/settlement/sheets.ts';
import type { BuyerFile } from '#lib/buyer/buyer.ts';
import { pick } from '#lib/field/fields.ts';
import type { ReceiptPayment } from '#lib/invoice/paper.ts';
import { groupBy } from '#lib/result/text.ts';

/**
 * The file of each buyer number of a sale or of a scope of it, by number. Each table is read once for all of them, and
 * of a scope no more than what these numbers bought and paid, with the sellers and the people behind these lots.
 */
export function buyerFiles(book: Book, saleId: number, scope: Scope = null): BuyerFile[] {
  const facts = factsOf(book, saleId, scope);
  const { sale, goods, sellers } = facts;
  const shared = { association: associationFacts(book), sale, goods, sellers, people: peopleIn(book, saleId, scope) };
  const takenIn = takenInOf(book, saleId, scope);
  const tags = tagsIn(book, saleId, scope);
  const licences = new Map(findLicences(book, saleId, scope).map(({ buyerNo, ...licence }) => [buyerNo, licence]));
  const lotOf = new Map(facts.lots.map((row) => [row.lotNo, row]));
  const sold = groupBy(
    facts.outcomes.filter(({ kind }) => kind === 'sold'),
    ({ buyerNo }) => buyerNo,
  );
  const paid = groupBy(facts.payments, ({ buyerNo }) => buyerNo);
  const tagsOf = groupBy(tags, ({ lotNo }) => lotNo);
  return facts.buyers.map((one) => {
    const outcomes = sold.get(one.buyerNo) ?? [];
    const lots = outcomes.flatMap(({ lotNo }) => lotOf.get(lotNo) ?? []);
    return {
      ...shared,
      buyer: { ...one, ...(licences.get(one.buyerNo) ?? NO_LICENCE) },
      lots: lots.map((row) => ({ ...row, takenIn: takenIn.get(row.lotNo) ?? '' })),
      outcomes,
      tags: lots.flatMap(({ lotNo }) => tagsOf.get(lotNo) ?? []),
      payments: paid.get(one.buyerNo) ?? [],
    };
  });
}

/** One of those, or undefined where the sale has no such buyer number: a till asks for one account at a time. */
export function buyerFile(book: Book, saleId: number, buyerNo: number): BuyerFile | undefined {
  return buyerFiles(book, saleId, { buyerNo })[0];
}

const NO_LICENCE: Pick<BuyerFile['buyer'], 'licenceRegion' | 'licenceExpires'> = {
  licenceRegion: '',
  licenceExpires: null,
};

const findLicences = scoped(({ db }, kind) =>
  db
    .select(pick(buyer, ['buyerNo', 'licenceRegion', 'licenceExpires']))
    .from(buyer)
    .where(buyersIn(kind)),
);

/** A payment of a buyer with whose it is; its time is still the moment in UTC. */
export interface BuyerPayment extends Omit<ReceiptPayment, 'paidOn' | 'paidTime'> {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly paidAt: string;
}

/** One payment of a buyer by its row, or undefined where there is none or the row takes another back. */
export function buyerPayment(book: Book, paymentId: number): BuyerPayment | undefined {
  const row = paymentRow(book, paymentId);
  const who = row?.buyerId == null ? undefined : buyerById(book, row.buyerId);
  if (!row || !who || row.voidsId !== null) return undefined;
  return {
    ...pick(row, ['saleId', 'direction', 'method', 'amountCents', 'reference', 'paidAt']),
    ...{ paymentId, buyerNo: who.buyerNo },
    ...recordedAs(book, row),
    ...buyerThen(book, { ...row, buyerId: who.id }),
  };
}

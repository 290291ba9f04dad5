/** The facts behind the papers of a buyer number. */
import type { BuyerFile } from '#lib/buyer/input.ts';
import { groupBy } from '#lib/group.ts';
import type { Book } from '../open.ts';
import { buyer } from '../schema/index.ts';
import { takenInOf } from './numbers-of-lots.ts';
import { factsOf } from './sale-facts.ts';
import { buyersIn, type Scope, scoped, scopeValues } from './scope.ts';
import { associationFacts, peopleIn, tagsIn } from './sheets.ts';

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
  const licences = licencesOf(book, saleId, scope);
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

type Licence = Pick<BuyerFile['buyer'], 'licenceRegion' | 'licenceExpires'>;

const NO_LICENCE: Licence = { licenceRegion: '', licenceExpires: null };

const findLicences = scoped(({ db }, kind) =>
  db
    .select({
      buyerNo: buyer.buyerNo,
      licenceRegion: buyer.licenceRegion,
      licenceExpires: buyer.licenceExpires,
    })
    .from(buyer)
    .where(buyersIn(kind))
    .prepare(),
);

function licencesOf(book: Book, saleId: number, scope: Scope): Map<number, Licence> {
  const rows = findLicences(book, scope).all(scopeValues(saleId, scope));
  return new Map(rows.map(({ buyerNo, ...licence }) => [buyerNo, licence]));
}

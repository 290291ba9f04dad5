/** The facts behind the papers of a buyer number. */
import { eq, sql } from 'drizzle-orm';
import type { BuyerFile } from '#lib/buyer/input.ts';
import { groupBy } from '#lib/group.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { buyer } from '../schema/index.ts';
import { buyerByNumber } from './find.ts';
import { buyerFacts, saleFacts } from './sale-facts.ts';
import { BOUGHT, scopedRows } from './scope.ts';
import { associationFacts, peopleOf, peopleOfBuyer, tagsOfBuyer, tagsOfSale } from './sheets.ts';

/** The file of each buyer number of a sale, by number. Each table is read once for all of them. */
export function buyerFiles(book: Book, saleId: number): BuyerFile[] {
  const facts = saleFacts(book, saleId);
  const { sale, goods, sellers } = facts;
  const shared = { association: associationFacts(book), sale, goods, sellers, people: peopleOf(book, saleId) };
  const takenIn = takenInOf(book, saleId);
  const tags = tagsOfSale(book, saleId);
  const licences = licencesOf(book, saleId);
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

/**
 * One of those, or undefined where the sale has no such buyer number. It reads what this number bought and paid, with
 * the sellers and the people behind these lots: a till in a sale of many lots asks for one account at a time.
 */
export function buyerFile(book: Book, saleId: number, buyerNo: number): BuyerFile | undefined {
  const { sale, goods, sellers, buyers, lots, outcomes, payments } = buyerFacts(book, saleId, buyerNo);
  const [own] = buyers;
  if (!own) return undefined;
  const scope = { saleId, scope: { buyerNo } };
  const takenIn = new Map(scopedRows<TakenIn>(book, TAKEN_IN, scope).map((row) => [lotNoOf(row), row.takenIn]));
  return {
    ...{ association: associationFacts(book), sale, goods, sellers, people: peopleOfBuyer(book, saleId, buyerNo) },
    buyer: { ...own, ...licenceOf(book, saleId, buyerNo) },
    lots: lots.map((row) => ({ ...row, takenIn: takenIn.get(row.lotNo) ?? '' })),
    ...{ outcomes, payments, tags: tagsOfBuyer(book, saleId, buyerNo) },
  };
}

interface TakenIn {
  readonly lotNumber: number;
  readonly lotLetter: string;
  readonly takenIn: string;
}

const TAKEN_IN = {
  name: 'where lots were taken',
  by: { seller: '1', buyer: BOUGHT },
  text: `
    SELECT lot_number AS lotNumber, lot_letter AS lotLetter, taken_in AS takenIn FROM lot
    WHERE sale_id = :saleId AND {scope}`,
};

type Licence = Pick<BuyerFile['buyer'], 'licenceRegion' | 'licenceExpires'>;

const NO_LICENCE: Licence = { licenceRegion: '', licenceExpires: null };

function takenInOf(book: Book, saleId: number): Map<string, string> {
  const rows = scopedRows<TakenIn>(book, TAKEN_IN, { saleId, scope: null });
  return new Map(rows.map((row) => [lotNoOf(row), row.takenIn]));
}

function licenceOf(book: Book, saleId: number, buyerNo: number): Licence {
  const row = buyerByNumber(book, saleId, buyerNo);
  return row ? { licenceRegion: row.licenceRegion, licenceExpires: row.licenceExpires } : NO_LICENCE;
}

function licencesOf(book: Book, saleId: number): Map<number, Licence> {
  const { buyerNo, licenceRegion, licenceExpires } = buyer;
  const find = book.prepared('licences of buyers', (db) =>
    db
      .select({ buyerNo, licenceRegion, licenceExpires })
      .from(buyer)
      .where(eq(buyer.saleId, sql.placeholder('saleId')))
      .prepare(),
  );
  const rows = find.all({ saleId });
  return new Map(rows.map(({ buyerNo: no, ...licence }) => [no, licence]));
}

/** The facts behind the papers of a buyer number. */
import { eq } from 'drizzle-orm';
import type { BuyerFile } from '#lib/buyer/input.ts';
import type { Payment, SaleFacts } from '#lib/facts.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { buyer, lot } from '../schema/index.ts';
import { saleFacts } from './sale-facts.ts';
import { associationFacts, peopleOf, tagsOfSale } from './sheets.ts';

/** The file of each buyer number of a sale, by number. Each table is read once for all of them. */
export function buyerFiles(book: Book, saleId: number): BuyerFile[] {
  const facts = saleFacts(book, saleId);
  const { sale, goods, sellers } = facts;
  const shared = { association: associationFacts(book), sale, goods, sellers, people: peopleOf(book, saleId) };
  const takenIn = takenInOf(book, saleId);
  const tags = tagsOfSale(book, saleId);
  const licences = licencesOf(book, saleId);
  return facts.buyers.map((one) => {
    const { outcomes, lots, payments } = boughtBy(facts, one.buyerNo);
    const own = new Set(lots.map(({ lotNo }) => lotNo));
    return {
      ...shared,
      buyer: { ...one, ...(licences.get(one.buyerNo) ?? NO_LICENCE) },
      lots: lots.map((row) => ({ ...row, takenIn: takenIn.get(row.lotNo) ?? '' })),
      outcomes,
      tags: tags.filter(({ lotNo }) => own.has(lotNo)),
      payments,
    };
  });
}

/** One of those, or undefined where the sale has no such buyer number. */
export function buyerFile(book: Book, saleId: number, buyerNo: number): BuyerFile | undefined {
  return buyerFiles(book, saleId).find((file) => file.buyer.buyerNo === buyerNo);
}

type Licence = Pick<BuyerFile['buyer'], 'licenceRegion' | 'licenceExpires'>;

const NO_LICENCE: Licence = { licenceRegion: '', licenceExpires: null };

function boughtBy(facts: SaleFacts, buyerNo: number): Pick<SaleFacts, 'outcomes' | 'lots'> & { payments: Payment[] } {
  const outcomes = facts.outcomes.filter((one) => one.kind === 'sold' && one.buyerNo === buyerNo);
  const own = new Set(outcomes.map(({ lotNo }) => lotNo));
  return {
    outcomes,
    lots: facts.lots.filter(({ lotNo }) => own.has(lotNo)),
    payments: facts.payments.filter((payment) => payment.buyerNo === buyerNo),
  };
}

function takenInOf(book: Book, saleId: number): Map<string, string> {
  const { lotNumber, lotLetter, takenIn } = lot;
  const rows = book.db.select({ lotNumber, lotLetter, takenIn }).from(lot).where(eq(lot.saleId, saleId)).all();
  return new Map(rows.map((row) => [lotNoOf(row), row.takenIn]));
}

function licencesOf(book: Book, saleId: number): Map<number, Licence> {
  const { buyerNo, licenceRegion, licenceExpires } = buyer;
  const rows = book.db
    .select({ buyerNo, licenceRegion, licenceExpires })
    .from(buyer)
    .where(eq(buyer.saleId, saleId))
    .all();
  return new Map(rows.map(({ buyerNo: no, ...licence }) => [no, licence]));
}

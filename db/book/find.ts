/** One row by what a person calls it: the look-ups that commands and screens share, each prepared once. */
import { and, eq, sql } from 'drizzle-orm';
import { buyer, goods, lot, particulars, person, sale, seller } from '#db/schema/index.ts';
import { type LotNo, lotNo, splitLotNo } from '#lib/lot/number.ts';
import { type Book, equals, query } from './open.ts';

export type SaleRow = typeof sale.$inferSelect;
export type SellerRow = typeof seller.$inferSelect;
export type BuyerRow = typeof buyer.$inferSelect;
export type GoodsRow = typeof goods.$inferSelect;
export type LotRow = typeof lot.$inferSelect;
export type PersonRow = typeof person.$inferSelect;
export type ParticularsRow = typeof particulars.$inferSelect;

const id = sql.placeholder('id');
const saleId = sql.placeholder('saleId');
const number = sql.placeholder('number');

const sales = query(({ db }) => db.select().from(sale).where(eq(sale.id, id)));

export function saleById(book: Book, id: number): SaleRow | undefined {
  return sales(book).get({ id });
}

const people = query(({ db }) => db.select().from(person).where(eq(person.id, id)));

export function personById(book: Book, id: number): PersonRow | undefined {
  return people(book).get({ id });
}

const peopleByRef = query(({ db }) => db.select().from(person).where(equals(person.ref, 'ref')));

export function personByRef(book: Book, ref: string): PersonRow | undefined {
  return peopleByRef(book).get({ ref });
}

const particularsAtSale = query(({ db }) => {
  const theirs = and(eq(particulars.saleId, saleId), eq(particulars.personId, id));
  return db.select().from(particulars).where(theirs);
});

export function particularsOf(book: Book, saleId: number, personId: number): ParticularsRow | undefined {
  return particularsAtSale(book).get({ saleId, id: personId });
}

const sellersByNumber = query(({ db }) => {
  const numbered = and(eq(seller.saleId, saleId), eq(seller.sellerNo, number));
  return db.select().from(seller).where(numbered);
});

export function sellerByNumber(book: Book, saleId: number, sellerNo: number): SellerRow | undefined {
  return sellersByNumber(book).get({ saleId, number: sellerNo });
}

const sellers = query(({ db }) => db.select().from(seller).where(eq(seller.id, id)));

export function sellerById(book: Book, id: number): SellerRow | undefined {
  return sellers(book).get({ id });
}

const buyersByNumber = query(({ db }) => {
  const numbered = and(eq(buyer.saleId, saleId), eq(buyer.buyerNo, number));
  return db.select().from(buyer).where(numbered);
});

export function buyerByNumber(book: Book, saleId: number, buyerNo: number): BuyerRow | undefined {
  return buyersByNumber(book).get({ saleId, number: buyerNo });
}

const goodsOfSale = query(({ db }) => {
  const coded = and(eq(goods.saleId, saleId), equals(goods.goods, 'code'));
  return db.select().from(goods).where(coded);
});

export function goodsByCode(book: Book, saleId: number, code: string): GoodsRow | undefined {
  return goodsOfSale(book).get({ saleId, code });
}

const goodsWithId = query(({ db }) => db.select().from(goods).where(eq(goods.id, id)));

export function goodsById(book: Book, id: number): GoodsRow | undefined {
  return goodsWithId(book).get({ id });
}

const lots = query(({ db }) => db.select().from(lot).where(eq(lot.id, id)));

export function lotById(book: Book, id: number): LotRow | undefined {
  return lots(book).get({ id });
}

const lotsByNumber = query(({ db }) => {
  const numbered = and(eq(lot.lotNumber, number), equals(lot.lotLetter, 'letter'));
  return db
    .select()
    .from(lot)
    .where(and(eq(lot.saleId, saleId), numbered));
});

export function lotByNumber(book: Book, saleId: number, lotNo: LotNo): LotRow | undefined {
  return lotsByNumber(book).get({ saleId, ...splitLotNo(lotNo) });
}

/**
 * The number on the ticket, from the two columns that the book keeps it in for sorting. A whole sale may have a hundred
 * thousand of them: those that are plainly good are not spelled out and read again. Throws for any other.
 */
export function lotNoOf({ lotNumber, lotLetter }: { readonly lotNumber: number; readonly lotLetter: string }): LotNo {
  const text = `${lotNumber}${lotLetter}`;
  const plain = Number.isInteger(lotNumber) && lotNumber >= 1 && lotNumber <= 99_999;
  return plain && (lotLetter === '' || LETTER.test(lotLetter)) ? (text as LotNo) : lotNo(text);
}

const LETTER = /^[A-Z]$/;

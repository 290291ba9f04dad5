/** One row by what a person calls it: the look-ups that commands and screens share, each prepared once. */
import { and, eq, sql } from 'drizzle-orm';
import { type LotNo, splitLotNo } from '#lib/lot-number.ts';
import type { Book } from '../open.ts';
import { buyer, goods, lot, particulars, person, sale, seller } from '../schema/index.ts';
import { statement } from '../statement.ts';

export type SaleRow = typeof sale.$inferSelect;
export type SellerRow = typeof seller.$inferSelect;
export type BuyerRow = typeof buyer.$inferSelect;
export type GoodsRow = typeof goods.$inferSelect;
export type LotRow = typeof lot.$inferSelect;
export type PersonRow = typeof person.$inferSelect;
export type ParticularsRow = typeof particulars.$inferSelect;

const given = sql.placeholder;

const findSale = statement(({ db }) =>
  db
    .select()
    .from(sale)
    .where(eq(sale.id, given('id')))
    .prepare(),
);

export function saleById(book: Book, id: number): SaleRow | undefined {
  return findSale(book).get({ id });
}

const findPerson = statement(({ db }) =>
  db
    .select()
    .from(person)
    .where(eq(person.id, given('id')))
    .prepare(),
);

export function personById(book: Book, id: number): PersonRow | undefined {
  return findPerson(book).get({ id });
}

const findPersonByRef = statement(({ db }) =>
  db
    .select()
    .from(person)
    .where(eq(person.ref, given('ref')))
    .prepare(),
);

export function personByRef(book: Book, ref: string): PersonRow | undefined {
  return findPersonByRef(book).get({ ref });
}

const findParticulars = statement(({ db }) =>
  db
    .select()
    .from(particulars)
    .where(and(eq(particulars.saleId, given('saleId')), eq(particulars.personId, given('personId'))))
    .prepare(),
);

export function particularsOf(book: Book, saleId: number, personId: number): ParticularsRow | undefined {
  return findParticulars(book).get({ saleId, personId });
}

const findSeller = statement(({ db }) =>
  db
    .select()
    .from(seller)
    .where(and(eq(seller.saleId, given('saleId')), eq(seller.sellerNo, given('sellerNo'))))
    .prepare(),
);

export function sellerByNumber(book: Book, saleId: number, sellerNo: number): SellerRow | undefined {
  return findSeller(book).get({ saleId, sellerNo });
}

const findSellerById = statement(({ db }) =>
  db
    .select()
    .from(seller)
    .where(eq(seller.id, given('id')))
    .prepare(),
);

export function sellerById(book: Book, id: number): SellerRow | undefined {
  return findSellerById(book).get({ id });
}

const findBuyer = statement(({ db }) =>
  db
    .select()
    .from(buyer)
    .where(and(eq(buyer.saleId, given('saleId')), eq(buyer.buyerNo, given('buyerNo'))))
    .prepare(),
);

export function buyerByNumber(book: Book, saleId: number, buyerNo: number): BuyerRow | undefined {
  return findBuyer(book).get({ saleId, buyerNo });
}

const findGoods = statement(({ db }) =>
  db
    .select()
    .from(goods)
    .where(and(eq(goods.saleId, given('saleId')), eq(goods.goods, given('code'))))
    .prepare(),
);

export function goodsByCode(book: Book, saleId: number, code: string): GoodsRow | undefined {
  return findGoods(book).get({ saleId, code });
}

const findGoodsById = statement(({ db }) =>
  db
    .select()
    .from(goods)
    .where(eq(goods.id, given('id')))
    .prepare(),
);

export function goodsById(book: Book, id: number): GoodsRow | undefined {
  return findGoodsById(book).get({ id });
}

const findLotById = statement(({ db }) =>
  db
    .select()
    .from(lot)
    .where(eq(lot.id, given('id')))
    .prepare(),
);

export function lotById(book: Book, id: number): LotRow | undefined {
  return findLotById(book).get({ id });
}

const findLot = statement(({ db }) =>
  db
    .select()
    .from(lot)
    .where(and(eq(lot.saleId, given('saleId')), eq(lot.lotNumber, given('number')), eq(lot.lotLetter, given('letter'))))
    .prepare(),
);

export function lotByNumber(book: Book, saleId: number, lotNo: LotNo): LotRow | undefined {
  return findLot(book).get({ saleId, ...splitLotNo(lotNo) });
}

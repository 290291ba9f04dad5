/** One row by what a person calls it: the look-ups that commands and screens share, each prepared once. */
import { and, eq, sql } from 'drizzle-orm';
import { type LotNo, splitLotNo } from '#lib/lot-number.ts';
import type { Book } from '../open.ts';
import { buyer, goods, lot, particulars, person, sale, seller } from '../schema/index.ts';

const given = sql.placeholder;

export type SaleRow = typeof sale.$inferSelect;
export type SellerRow = typeof seller.$inferSelect;
export type BuyerRow = typeof buyer.$inferSelect;
export type GoodsRow = typeof goods.$inferSelect;
export type LotRow = typeof lot.$inferSelect;
export type PersonRow = typeof person.$inferSelect;
export type ParticularsRow = typeof particulars.$inferSelect;

export function saleById(book: Book, id: number): SaleRow | undefined {
  return book
    .prepared('find sale', (db) =>
      db
        .select()
        .from(sale)
        .where(eq(sale.id, given('id')))
        .prepare(),
    )
    .get({ id });
}

export function personById(book: Book, id: number): PersonRow | undefined {
  return book
    .prepared('find person', (db) =>
      db
        .select()
        .from(person)
        .where(eq(person.id, given('id')))
        .prepare(),
    )
    .get({ id });
}

export function personByRef(book: Book, ref: string): PersonRow | undefined {
  return book
    .prepared('find person by ref', (db) =>
      db
        .select()
        .from(person)
        .where(eq(person.ref, given('ref')))
        .prepare(),
    )
    .get({ ref });
}

export function particularsOf(book: Book, saleId: number, personId: number): ParticularsRow | undefined {
  const find = book.prepared('find particulars', (db) =>
    db
      .select()
      .from(particulars)
      .where(and(eq(particulars.saleId, given('saleId')), eq(particulars.personId, given('personId'))))
      .prepare(),
  );
  return find.get({ saleId, personId });
}

export function sellerByNumber(book: Book, saleId: number, sellerNo: number): SellerRow | undefined {
  const find = book.prepared('find seller', (db) =>
    db
      .select()
      .from(seller)
      .where(and(eq(seller.saleId, given('saleId')), eq(seller.sellerNo, given('sellerNo'))))
      .prepare(),
  );
  return find.get({ saleId, sellerNo });
}

export function sellerById(book: Book, id: number): SellerRow | undefined {
  return book
    .prepared('find seller by id', (db) =>
      db
        .select()
        .from(seller)
        .where(eq(seller.id, given('id')))
        .prepare(),
    )
    .get({ id });
}

export function buyerByNumber(book: Book, saleId: number, buyerNo: number): BuyerRow | undefined {
  const find = book.prepared('find buyer', (db) =>
    db
      .select()
      .from(buyer)
      .where(and(eq(buyer.saleId, given('saleId')), eq(buyer.buyerNo, given('buyerNo'))))
      .prepare(),
  );
  return find.get({ saleId, buyerNo });
}

export function goodsByCode(book: Book, saleId: number, code: string): GoodsRow | undefined {
  const find = book.prepared('find goods', (db) =>
    db
      .select()
      .from(goods)
      .where(and(eq(goods.saleId, given('saleId')), eq(goods.goods, given('code'))))
      .prepare(),
  );
  return find.get({ saleId, code });
}

export function goodsById(book: Book, id: number): GoodsRow | undefined {
  return book
    .prepared('find goods by id', (db) =>
      db
        .select()
        .from(goods)
        .where(eq(goods.id, given('id')))
        .prepare(),
    )
    .get({ id });
}

export function lotById(book: Book, id: number): LotRow | undefined {
  return book
    .prepared('find lot by id', (db) =>
      db
        .select()
        .from(lot)
        .where(eq(lot.id, given('id')))
        .prepare(),
    )
    .get({ id });
}

export function lotByNumber(book: Book, saleId: number, lotNo: LotNo): LotRow | undefined {
  const find = book.prepared('find lot', (db) =>
    db
      .select()
      .from(lot)
      .where(
        and(eq(lot.saleId, given('saleId')), eq(lot.lotNumber, given('number')), eq(lot.lotLetter, given('letter'))),
      )
      .prepare(),
  );
  return find.get({ saleId, ...splitLotNo(lotNo) });
}

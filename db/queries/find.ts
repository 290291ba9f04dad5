/** One row by what a person calls it: the look-ups that commands and screens share, each prepared once. */
import { type LotNo, splitLotNo } from '#lib/lot-number.ts';
import type { Book } from '../open.ts';
import { findRow } from '../rows.ts';
import { buyer, goods, lot, particulars, person, sale, seller } from '../schema/index.ts';

export type SaleRow = typeof sale.$inferSelect;
export type SellerRow = typeof seller.$inferSelect;
export type BuyerRow = typeof buyer.$inferSelect;
export type GoodsRow = typeof goods.$inferSelect;
export type LotRow = typeof lot.$inferSelect;
export type PersonRow = typeof person.$inferSelect;
export type ParticularsRow = typeof particulars.$inferSelect;

export function saleById(book: Book, id: number): SaleRow | undefined {
  return findRow(book, sale, { id });
}

export function personById(book: Book, id: number): PersonRow | undefined {
  return findRow(book, person, { id });
}

export function personByRef(book: Book, ref: string): PersonRow | undefined {
  return findRow(book, person, { ref });
}

export function particularsOf(book: Book, saleId: number, personId: number): ParticularsRow | undefined {
  return findRow(book, particulars, { saleId, personId });
}

export function sellerByNumber(book: Book, saleId: number, sellerNo: number): SellerRow | undefined {
  return findRow(book, seller, { saleId, sellerNo });
}

export function sellerById(book: Book, id: number): SellerRow | undefined {
  return findRow(book, seller, { id });
}

export function buyerByNumber(book: Book, saleId: number, buyerNo: number): BuyerRow | undefined {
  return findRow(book, buyer, { saleId, buyerNo });
}

export function goodsByCode(book: Book, saleId: number, code: string): GoodsRow | undefined {
  return findRow(book, goods, { saleId, goods: code });
}

export function goodsById(book: Book, id: number): GoodsRow | undefined {
  return findRow(book, goods, { id });
}

export function lotById(book: Book, id: number): LotRow | undefined {
  return findRow(book, lot, { id });
}

export function lotByNumber(book: Book, saleId: number, lotNo: LotNo): LotRow | undefined {
  const { number: lotNumber, letter: lotLetter } = splitLotNo(lotNo);
  return findRow(book, lot, { saleId, lotNumber, lotLetter });
}

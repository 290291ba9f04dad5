/** Rows by what a person calls them: the look-ups that commands and screens share, each prepared once for an open book. */
import { and, asc, count, getTableColumns, max, sql } from 'drizzle-orm';
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core';
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

type Values<T extends SQLiteTable, N extends readonly (keyof T['$inferSelect'])[]> = {
  [I in keyof N]: T['$inferSelect'][N[I]];
};

/** The rows of a table in which these columns have the values that are given when it is asked. */
function rowsWhere<T extends SQLiteTable>(db: Book['db'], table: T, names: readonly string[]) {
  const columns: Readonly<Record<string, SQLiteColumn>> = getTableColumns(table);
  const conditions = names.map((name) => equals(columns[name] as SQLiteColumn, name));
  return db
    .select()
    .from(table as SQLiteTable)
    .where(and(...conditions));
}

function namedValues(names: readonly string[], values: readonly unknown[]): Record<string, unknown> {
  return Object.fromEntries(names.map((name, at) => [name, values[at]]));
}

/** Makes the look-up of the one row with given values in these columns: `rowBy(seller, 'saleId', 'sellerNo')`. */
export function rowBy<T extends SQLiteTable, const N extends readonly (keyof T['$inferSelect'] & string)[]>(
  table: T,
  ...names: N
): (book: Book, ...values: Values<T, N>) => T['$inferSelect'] | undefined {
  const find = query(({ db }) => rowsWhere(db, table, names));
  return (book, ...values) => find(book).get(namedValues(names, values));
}

/** The same of all such rows, in the order of a column. */
export function rowsBy<T extends SQLiteTable, const N extends readonly (keyof T['$inferSelect'] & string)[]>(
  table: T,
  order: SQLiteColumn,
  ...names: N
): (book: Book, ...values: Values<T, N>) => T['$inferSelect'][] {
  const find = query(({ db }) => rowsWhere(db, table, names).orderBy(asc(order)));
  return (book, ...values) => find(book).all(namedValues(names, values));
}

export const saleById = rowBy(sale, 'id');
export const personById = rowBy(person, 'id');
export const personByRef = rowBy(person, 'ref');
export const particularsOf = rowBy(particulars, 'saleId', 'personId');
/** By the reference of a person at a sale, which a folder may have named in its own way. */
export const particularsByRef = rowBy(particulars, 'saleId', 'ref');
export const sellerById = rowBy(seller, 'id');
export const sellerByNumber = rowBy(seller, 'saleId', 'sellerNo');
export const buyerById = rowBy(buyer, 'id');
export const buyerByNumber = rowBy(buyer, 'saleId', 'buyerNo');
export const goodsById = rowBy(goods, 'id');
export const goodsByCode = rowBy(goods, 'saleId', 'goods');
export const lotById = rowBy(lot, 'id');
const lotByNumberAndLetter = rowBy(lot, 'saleId', 'lotNumber', 'lotLetter');

export function lotByNumber(book: Book, saleId: number, lotNo: LotNo): LotRow | undefined {
  const { number, letter } = splitLotNo(lotNo);
  return lotByNumberAndLetter(book, saleId, number, letter);
}

/** Makes the question how many rows have a value in this column: `countBy(lot, lot.saleId)`. */
export function countBy(table: SQLiteTable, column: SQLiteColumn): (book: Book, value: number) => number {
  const find = query(({ db }) => db.select({ n: count() }).from(table).where(equals(column, 'value')));
  return (book, value) => find(book).get({ value })?.n ?? 0;
}

/** Makes the question for the number behind the highest of a sale; 1 where there is none yet. */
export function nextNumber(
  table: SQLiteTable & { readonly saleId: SQLiteColumn },
  column: SQLiteColumn,
): (book: Book, saleId: number) => number {
  const highest = sql<number | null>`${max(column)}`;
  const find = query(({ db }) => db.select({ highest }).from(table).where(equals(table.saleId, 'saleId')));
  return (book, saleId) => (find(book).get({ saleId })?.highest ?? 0) + 1;
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

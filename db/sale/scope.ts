/** Reads of a whole sale, or only of what one seller number, a range of them, or one buyer number needs. */
import { and, between, eq, inArray, type SQL, sql } from 'drizzle-orm';
import { QueryBuilder, type SQLiteColumn } from 'drizzle-orm/sqlite-core';
import { type Book, equals, query } from '#db/book/open.ts';
import { buyer, lot, seller, standingOutcome } from '#db/schema/index.ts';

/** Numbers from one to another, both included. */
interface Range {
  readonly from: number;
  readonly to: number;
}

/** Whose rows are read. Null is the whole sale's. */
export type Scope = null | { readonly sellerNo: number } | { readonly sellers: Range } | { readonly buyerNo: number };

export type ScopeKind = 'sale' | 'seller' | 'buyer';

/** One statement for each kind of scope, each built once for a book. Its values are those of {@link scopeValues}. */
export function scopedStatement<P>(build: (book: Book, kind: ScopeKind) => { prepare(): P }) {
  const forms = {
    sale: query((book) => build(book, 'sale')),
    seller: query((book) => build(book, 'seller')),
    buyer: query((book) => build(book, 'buyer')),
  };
  return (book: Book, scope: Scope): P => forms[kindOf(scope)](book);
}

type Select<R> = { prepare(): { all(values: Record<string, unknown>): R[] } };

/** Makes a read of whatever rows a scope takes in, by the statement of its kind. */
export function scoped<R>(build: (book: Book, kind: ScopeKind) => Select<R>) {
  const find = scopedStatement(build);
  return (book: Book, saleId: number, scope: Scope): R[] => find(book, scope).all(scopeValues(saleId, scope));
}

function kindOf(scope: Scope): ScopeKind {
  if (scope === null) return 'sale';
  return 'buyerNo' in scope ? 'buyer' : 'seller';
}

/** What the placeholders of a scoped statement stand for; one number is a range of one. */
export function scopeValues(saleId: number, scope: Scope) {
  if (scope === null) return { saleId, from: 0, to: 0 };
  if ('sellers' in scope) return { saleId, ...scope.sellers };
  const number = 'buyerNo' in scope ? scope.buyerNo : scope.sellerNo;
  return { saleId, from: number, to: number };
}

const given = sql.placeholder;
const builder = new QueryBuilder();

/** The sale is named beside the number, because the index has both. */
const OF_SELLERS = and(equals(seller.saleId, 'saleId'), between(seller.sellerNo, given('from'), given('to'))) as SQL;
const OF_BUYERS = and(equals(buyer.saleId, 'saleId'), between(buyer.buyerNo, given('from'), given('to'))) as SQL;

const sellerIds = builder.select({ id: seller.id }).from(seller).where(OF_SELLERS);
const buyerIds = builder.select({ id: buyer.id }).from(buyer).where(OF_BUYERS);
const boughtLots = builder
  .select({ lotId: standingOutcome.lotId })
  .from(standingOutcome)
  .where(and(eq(standingOutcome.kind, 'sold'), inArray(standingOutcome.buyerId, buyerIds)));
const boughtFrom = builder.select({ id: lot.sellerId }).from(lot).where(inArray(lot.id, boughtLots));

interface LotColumns {
  readonly id: SQLiteColumn;
  readonly saleId: SQLiteColumn;
  readonly sellerId: SQLiteColumn;
}

/** Lots of the sale, of the seller numbers, or those that the buyer bought. `of` is the lot's table or a view of it. */
export function lotsIn(kind: ScopeKind, of: LotColumns = lot): SQL {
  if (kind === 'sale') return equals(of.saleId, 'saleId');
  return kind === 'seller' ? inArray(of.sellerId, sellerIds) : inArray(of.id, boughtLots);
}

/** Seller numbers of the sale, those asked for, or those that the buyer bought from. */
export function sellersIn(kind: ScopeKind): SQL {
  if (kind === 'sale') return equals(seller.saleId, 'saleId');
  return kind === 'seller' ? OF_SELLERS : inArray(seller.id, boughtFrom);
}

/** Buyers of the sale, or the one asked for. A seller's papers may name any buyer. */
export function buyersIn(kind: ScopeKind): SQL {
  return kind === 'buyer' ? OF_BUYERS : equals(buyer.saleId, 'saleId');
}

/** Rows that belong to the seller numbers, or to the buyer, by the column that names them; all rows for a sale. */
export function ownedBySeller(column: SQLiteColumn): SQL {
  return inArray(column, sellerIds);
}

export function ownedByBuyer(column: SQLiteColumn): SQL {
  return inArray(column, buyerIds);
}

/** The sellers that the buyer bought from, by the column that names one. */
export function boughtFromBy(column: SQLiteColumn): SQL {
  return inArray(column, boughtFrom);
}

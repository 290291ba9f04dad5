/**
 * Statements that read a whole sale, or only what one seller number or one buyer number of it needs: prepared once for
 * each of the three, and read without an object mapper between, because a whole sale may be a hundred thousand rows.
 */
import type { Book } from '../open.ts';

/** Numbers from one to another, both included. */
export interface Range {
  readonly from: number;
  readonly to: number;
}

/** Whose rows are read: one seller number's, one buyer's, or those of a range of them. Null is the whole sale's. */
export type Scope =
  | null
  | { readonly sellerNo: number }
  | { readonly buyerNo: number }
  | { readonly sellers: Range }
  | { readonly buyers: Range };

/** What is asked of the lots of a sale, for each scope. */
interface ByScope {
  readonly seller: string;
  readonly buyer: string;
}

/** The lots that are this buyer's: sold, by the outcome that no later one replaces. */
export const BOUGHT = `
  lot.id IN (
    SELECT own.lot_id FROM outcome own JOIN buyer purchaser ON purchaser.id = own.buyer_id
    WHERE purchaser.sale_id = :saleId AND purchaser.buyer_no = :buyerNo AND own.kind = 'sold'
      AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = own.id))`;

/** Lots by the seller number they came under, or by who bought them. Wants `seller` and `lot` in the statement. */
export const OF_LOTS: ByScope = { seller: 'seller.seller_no = :sellerNo', buyer: BOUGHT };

/** A statement in which `{scope}` stands where rows are limited. */
interface Scoped {
  readonly name: string;
  readonly text: string;
  readonly by: ByScope;
}

interface Of {
  readonly saleId: number;
  readonly scope: Scope;
}

/** Reads the rows of one statement, in the order that it says. */
export function scopedRows<T>(book: Book, scoped: Scoped, of: Of): T[] {
  const find = book.prepared(`${scoped.name} of ${kindOf(of.scope)}`, () => statementOf<T>(book, scoped, of));
  return find.all({ saleId: of.saleId, ...rangeOf(of.scope) });
}

/** The same as tuples of their cells, which a hundred thousand rows are read as in half the time. */
export function scopedCells<T extends readonly unknown[]>(book: Book, scoped: Scoped, of: Of): T[] {
  const find = book.prepared(`${scoped.name} of ${kindOf(of.scope)}, cells`, () =>
    statementOf<unknown>(book, scoped, of).raw(),
  );
  return find.all({ saleId: of.saleId, ...rangeOf(of.scope) }) as T[];
}

export function kindOf(scope: Scope): 'sale' | 'seller' | 'buyer' {
  if (scope === null) return 'sale';
  return 'sellerNo' in scope || 'sellers' in scope ? 'seller' : 'buyer';
}

function rangeOf(scope: Scope): Range | null {
  if (scope === null) return null;
  if ('sellers' in scope) return scope.sellers;
  if ('buyers' in scope) return scope.buyers;
  const number = 'sellerNo' in scope ? scope.sellerNo : scope.buyerNo;
  return { from: number, to: number };
}

function statementOf<T>(book: Book, { text, by }: Scoped, { scope }: Of) {
  const kind = kindOf(scope);
  const whole = text.replace('{scope}', kind === 'sale' ? '1' : by[kind]);
  return book.sqlite.prepare<[object], T>(kind === 'sale' ? whole : ranged(whole));
}

/**
 * One number is a range of one. The sale is named beside the number, whose index has both, and the plus keeps SQLite
 * from going through all lots, payments or papers of the sale instead.
 */
function ranged(text: string): string {
  return text
    .replace(/\b(lot|payment|settlement|invoice)\.sale_id = :saleId/g, '+$1.sale_id = :saleId')
    .replace(/\b(\w+)\.(seller|buyer)_no = :\2No/g, '$1.sale_id = :saleId AND $1.$2_no BETWEEN :from AND :to')
    .replace(/\b(seller|buyer)_no = :\1No/g, '$1_no BETWEEN :from AND :to');
}

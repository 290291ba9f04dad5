/**
 * Statements that read a whole sale, or only what one seller number or one buyer number of it needs: prepared once for
 * each of the three, and read without an object mapper between, because a whole sale may be a hundred thousand rows.
 */
import type { Book } from '../open.ts';

/** Whose rows are read. Null is the whole sale's. */
export type Scope = null | { readonly sellerNo: number } | { readonly buyerNo: number };

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
  const find = book.prepared(`${scoped.name} of ${kindOf(of)}`, () => statementOf<T>(book, scoped, of));
  return find.all({ saleId: of.saleId, ...of.scope });
}

/** The same as tuples of their cells, which a hundred thousand rows are read as in half the time. */
export function scopedCells<T extends readonly unknown[]>(book: Book, scoped: Scoped, of: Of): T[] {
  const find = book.prepared(`${scoped.name} of ${kindOf(of)}, cells`, () =>
    statementOf<unknown>(book, scoped, of).raw(),
  );
  return find.all({ saleId: of.saleId, ...of.scope }) as T[];
}

function kindOf({ scope }: Of): 'sale' | 'seller' | 'buyer' {
  if (scope === null) return 'sale';
  return 'sellerNo' in scope ? 'seller' : 'buyer';
}

function statementOf<T>(book: Book, { text, by }: Scoped, of: Of) {
  const kind = kindOf(of);
  return book.sqlite.prepare<[object], T>(text.replace('{scope}', kind === 'sale' ? '1' : by[kind]));
}

/** The goods that a person means who writes their short name or their name. */
import { eq, sql } from 'drizzle-orm';
import { foldName } from '#lib/fold.ts';
import type { Book } from '../open.ts';
import { goods } from '../schema/index.ts';
import type { GoodsRow } from './find.ts';

/** Undefined where the sale takes none that are called so, or several. */
export function goodsCalled(book: Book, saleId: number, called: string): GoodsRow | undefined {
  const find = book.prepared('goods of sale by name', (db) =>
    db
      .select()
      .from(goods)
      .where(eq(goods.saleId, sql.placeholder('saleId')))
      .prepare(),
  );
  const all = find.all({ saleId });
  const exact = all.find(({ goods: code }) => code === called);
  if (exact) return exact;
  const folded = foldName(called);
  const [one, ...others] = all.filter(({ goods: code, name }) =>
    [code, name].some((word) => foldName(word) === folded),
  );
  return others.length === 0 ? one : undefined;
}

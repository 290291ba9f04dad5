/** What stands before a tag's number in a pasted list that says the number alone, as at the form. */
import { withTagHead } from '#lib/tag-head.ts';
import { expandTags } from '#lib/tag-list.ts';
import type { ListRow } from '../exchange/lot-list.ts';
import type { Book } from '../open.ts';
import { type GoodsRow, type SaleRow, saleById } from './find.ts';
import { goodsCalled } from './goods-called.ts';
import { headFor } from './goods-choices.ts';

/** The rows with every tag whole, so that what is seen before they are taken in is what the book will keep. */
export function withTagHeads(book: Book, saleId: number, rows: readonly ListRow[]): readonly ListRow[] {
  const sale = saleById(book, saleId);
  if (!sale || rows.every(({ cells }) => (cells.tags ?? '') === '')) return rows;
  const heads = headsOf(book, sale);
  return rows.map((row) => {
    const { tags = '', goods = '' } = row.cells;
    const known = goodsCalled(book, saleId, goods);
    if (tags === '' || !known?.exportTag) return row;
    return { ...row, cells: { ...row.cells, tags: heads.put(known, tags) } };
  });
}

/** The heads of a list: that of the goods in the book, until a row of the list shows another. */
function headsOf(book: Book, sale: SaleRow) {
  const heads = new Map<string, string>();
  return {
    put(goods: GoodsRow, typed: string): string {
      const tags = withTagHead(typed, heads.get(goods.goods) ?? headFor(book, sale, goods));
      const read = expandTags(tags);
      const newest = read.ok ? read.value.at(-1) : undefined;
      // A replacement shows no State and no species: the numbers after it are not replacements too.
      if (newest && !newest.replacement) heads.set(goods.goods, newest.canonical.slice(0, -newest.serial.length - 1));
      return tags;
    },
  };
}

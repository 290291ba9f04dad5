/** What stands before a tag's number in a pasted list that says the number alone, as at the form. */
import { askTagYear, type SeasonTags, tagHead, withTagHead } from '#lib/tag-head.ts';
import { expandTags } from '#lib/tag-list.ts';
import type { ListProblem, ListRow } from '../exchange/lot-list.ts';
import type { Book } from '../open.ts';
import { type GoodsRow, type SaleRow, saleById } from './find.ts';
import { goodsCalled, tagsOfSeason } from './goods-choices.ts';

interface WholeList {
  readonly rows: readonly ListRow[];
  /** Whether the year on a tag is right, asked at its cell before the list is taken in. */
  readonly asks: readonly ListProblem[];
}

/** The rows with every tag whole, so that what is seen before they are taken in is what the book will keep. */
export function withTagHeads(book: Book, saleId: number, typed: readonly ListRow[]): WholeList {
  const sale = saleById(book, saleId);
  if (!sale || typed.every(({ cells }) => (cells.tags ?? '') === '')) return { rows: typed, asks: [] };
  const heads = headsOf(book, sale);
  const asks: ListProblem[] = [];
  const rows = typed.map((row) => {
    const { tags = '', goods = '' } = row.cells;
    const known = goodsCalled(book, saleId, goods);
    if (tags === '' || !known?.exportTag) return row;
    const put = heads.put(known, tags);
    if (put.asks !== '') asks.push({ line: row.line, column: 'tags', message: put.asks });
    return { ...row, cells: { ...row.cells, tags: put.tags } };
  });
  return { rows, asks };
}

/** The heads of a list: that of the goods in the book, until a row of the list shows another of this season. */
function headsOf(book: Book, sale: SaleRow) {
  const seasons = new Map<string, SeasonTags>();
  const heads = new Map<string, string>();
  const seasonOf = (goods: GoodsRow): SeasonTags => {
    const known = seasons.get(goods.goods) ?? tagsOfSeason(book, sale, goods);
    seasons.set(goods.goods, known);
    return known;
  };
  return {
    put(goods: GoodsRow, typed: string): { readonly tags: string; readonly asks: string } {
      const season = seasonOf(goods);
      const tags = withTagHead(typed, heads.get(goods.goods) ?? tagHead(season));
      const read = expandTags(tags);
      if (!read.ok) return { tags, asks: '' };
      const asked = askTagYear({ season, takenIn: '', tags: read.value.map(({ canonical }) => canonical) });
      const newest = read.value.at(-1);
      // A replacement shows no State and no species: the numbers after it are not replacements too. Nor are the tags of
      // other pieces of the year that had to be asked about.
      if (newest && !newest.replacement && !asked) {
        heads.set(goods.goods, newest.canonical.slice(0, -newest.serial.length - 1));
      }
      return { tags, asks: asked?.message ?? '' };
    },
  };
}

/** A list of lots before it is taken in: every row with what is wrong at each cell. A rehearsal; nothing is kept. */

import { rehearse } from '#db/book/door.ts';
import { type GoodsRow, lotByNumber, type SaleRow, saleById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { LIST_COLUMNS, type ListColumn, type ListProblem, type ListRow, readLotList } from '#db/exchange/lot-list.ts';
import { goodsCalled, tagsOfSeason } from '#db/sale/goods.ts';
import { holdsOfLotId } from '#db/tag/queries.ts';
import { lotNo } from '#lib/lot/number.ts';
import type { Refusal } from '#lib/result/result.ts';
import { askTagYear, type SeasonTags, tagHead, withTagHead } from '#lib/tag/head.ts';
import { expandTags } from '#lib/tag/list.ts';

export interface LotListView {
  readonly columns: readonly ListColumn[];
  readonly rows: readonly ListRow[];
  /** By line and then by column; empty where the whole list can be taken in. */
  readonly problems: readonly ListProblem[];
  /** What holds for the list as a whole, such as a sale that takes no goods in; empty otherwise. */
  readonly refused: string;
  /** The numbers that the lots would have now, and those of them that would be on hold. */
  readonly lots: readonly string[];
  readonly onHold: readonly string[];
  /** Why a lot would be on hold that bears tags already. The list is taken in all the same. */
  readonly holds: readonly ListProblem[];
  /** Where a tag shows another year than this season's. The list is taken in as it is, if that is so on the tag. */
  readonly asks: readonly ListProblem[];
}

interface Asked {
  readonly saleId: number;
  readonly sellerNo: number;
  readonly text: string;
  readonly keepNumbers: boolean;
  /** ISO 8601, UTC. */
  readonly at: string;
}

export function lotListView(book: Book, { saleId, sellerNo, text, keepNumbers, at }: Asked): LotListView {
  const { columns, rows: typed, problems } = readLotList(text);
  const { rows, asks } = withTagHeads(book, saleId, typed);
  const none = { columns, rows, refused: '', lots: [], onHold: [], holds: [], asks };
  if (rows.length === 0) {
    const refused = problems.length === 0 ? 'There is no row here yet: paste the list, or choose its file.' : '';
    return { ...none, problems, refused };
  }
  const input = { saleId, sellerNo, keepNumbers, rows: rows.map(({ cells }) => cells) };
  const entry = { command: 'lots.add', input, worker: '', station: 'intake', at } as const;
  const tried = rehearse(book, entry, (value) => ({ ...value, holds: holdsOf(book, saleId, rows, value.lots) }));
  if (tried.ok) return problems.length > 0 ? { ...none, problems } : { ...none, problems, ...tried.value };
  const said = [tried, ...(tried.also ?? [])];
  const found = said.flatMap((one) => problemOf(one, rows));
  const refused = said.filter((one) => problemOf(one, rows).length === 0).map(({ message }) => message);
  return { ...none, problems: inOrder([...problems, ...found]), refused: refused.join(' ') };
}

/** Read while the rehearsed lots still stand. A lot without a tag yet waits for all of them, which needs no sentence. */
function holdsOf(book: Book, saleId: number, rows: readonly ListRow[], lots: readonly string[]): ListProblem[] {
  return rows.flatMap(({ line, cells }, at) => {
    const number = lots[at];
    const row = cells.tags && number ? lotByNumber(book, saleId, lotNo(number)) : undefined;
    return row ? holdsOfLotId(book, row).map(({ message }) => ({ line, column: 'tags' as const, message })) : [];
  });
}

function problemOf({ field, message }: Refusal, rows: readonly ListRow[]): ListProblem[] {
  const [, at, column] = /^rows\.(\d+)\.(\w+)$/.exec(field ?? '') ?? [];
  const row = at === undefined ? undefined : rows[Number.parseInt(at, 10)];
  return row ? [{ line: row.line, column: LIST_COLUMNS.find((one) => one === column) ?? null, message }] : [];
}

/** Each once: a tag that stands three times in a cell is said to be there twice, and that is enough. */
function inOrder(problems: readonly ListProblem[]): ListProblem[] {
  const place = ({ column }: ListProblem) => (column === null ? -1 : LIST_COLUMNS.indexOf(column));
  const once = new Map(problems.map((one) => [`${one.line} ${one.column} ${one.message}`, one]));
  return [...once.values()].sort((a, b) => a.line - b.line || place(a) - place(b));
}

/** The rows with every tag whole, so that what is seen before they are taken in is what the book will keep. */
function withTagHeads(book: Book, saleId: number, typed: readonly ListRow[]): Pick<LotListView, 'rows' | 'asks'> {
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

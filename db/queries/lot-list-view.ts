/** A list of lots before it is taken in: every row with what is wrong at each cell. A rehearsal; nothing is kept. */
import { lotNo } from '#lib/lot-number.ts';
import type { Refusal } from '#lib/result.ts';
import { rehearse } from '../door.ts';
import { LIST_COLUMNS, type ListColumn, type ListProblem, type ListRow, readLotList } from '../exchange/lot-list.ts';
import type { Book } from '../open.ts';
import { lotByNumber } from './find.ts';
import { withTagHeads } from './list-tags.ts';
import { holdsOfLotId } from './tags.ts';

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

type Tried = Pick<LotListView, 'lots' | 'onHold' | 'holds'>;

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
  const tried = rehearse(book, entry, (value): Tried => {
    return { ...value, holds: holdsOf(book, saleId, { rows, lots: value.lots }) };
  });
  if (tried.ok) return problems.length > 0 ? { ...none, problems } : { ...none, problems, ...tried.value };
  const said = [tried, ...(tried.also ?? [])];
  const found = said.flatMap((one) => problemOf(one, rows));
  const refused = said.filter((one) => problemOf(one, rows).length === 0).map(({ message }) => message);
  return { ...none, problems: inOrder([...problems, ...found]), refused: refused.join(' ') };
}

/** Read while the rehearsed lots still stand. A lot without a tag yet waits for all of them, which needs no sentence. */
function holdsOf(book: Book, saleId: number, { rows, lots }: Pick<LotListView, 'rows' | 'lots'>): ListProblem[] {
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

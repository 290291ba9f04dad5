/** A list of lots before it is taken in: every row with what is wrong at each cell. A rehearsal; nothing is kept. */
import type { Refusal } from '#lib/result.ts';
import { rehearse } from '../door.ts';
import { type ListProblem, type ListRow, LOT_COLUMNS, type LotColumn, readLotList } from '../exchange/lot-list.ts';
import type { Book } from '../open.ts';

export interface LotListView {
  readonly columns: readonly LotColumn[];
  readonly rows: readonly ListRow[];
  /** By line and then by column; empty where the whole list can be taken in. */
  readonly problems: readonly ListProblem[];
  /** What holds for the list as a whole, such as a sale that takes no goods in; empty otherwise. */
  readonly refused: string;
  /** The numbers that the lots would have now, and those of them that would be on hold. */
  readonly lots: readonly string[];
  readonly onHold: readonly string[];
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
  const { columns, rows, problems } = readLotList(text);
  const none = { columns, rows, refused: '', lots: [], onHold: [] };
  if (rows.length === 0) {
    const refused = problems.length === 0 ? 'There is no row here yet: paste the list, or choose its file.' : '';
    return { ...none, problems, refused };
  }
  const input = { saleId, sellerNo, keepNumbers, rows: rows.map(({ cells }) => cells) };
  const tried = rehearse(book, { command: 'lots.add', input, worker: '', station: 'intake', at });
  if (tried.ok) {
    const { lots, onHold } = tried.value as unknown as Pick<LotListView, 'lots' | 'onHold'>;
    return problems.length > 0 ? { ...none, problems } : { ...none, problems, lots, onHold };
  }
  const said = [tried, ...(tried.also ?? [])];
  const found = said.flatMap((one) => problemOf(one, rows));
  const refused = said.filter((one) => problemOf(one, rows).length === 0).map(({ message }) => message);
  return { ...none, problems: inOrder([...problems, ...found]), refused: refused.join(' ') };
}

function problemOf({ field, message }: Refusal, rows: readonly ListRow[]): ListProblem[] {
  const [, at, column] = /^rows\.(\d+)\.(\w+)$/.exec(field ?? '') ?? [];
  const row = at === undefined ? undefined : rows[Number.parseInt(at, 10)];
  return row ? [{ line: row.line, column: LOT_COLUMNS.find((one) => one === column) ?? null, message }] : [];
}

function inOrder(problems: readonly ListProblem[]): ListProblem[] {
  const place = ({ column }: ListProblem) => (column === null ? -1 : LOT_COLUMNS.indexOf(column));
  return [...problems].sort((a, b) => a.line - b.line || place(a) - place(b));
}

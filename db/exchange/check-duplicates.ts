/** What may stand once in a folder: the numbers and names by which rows are called, and each export tag. */
import { refuse } from '#lib/result.ts';
import type { Report } from './problem.ts';
import type { Rows } from './rows.ts';
import { TABLES, type TableName } from './tables.ts';

interface Once {
  readonly table: TableName;
  readonly columns: readonly string[];
  readonly say: (what: string, line: number) => string;
}

const taken = (noun: string) => (what: string, line: number) =>
  `Give this ${noun} of its own: ${what} is already in line ${line}.`;

const ONCE: readonly Once[] = [
  { table: 'goods', columns: ['goods'], say: taken('kind of goods a short name') },
  { table: 'people', columns: ['person_id'], say: taken('person an id') },
  {
    table: 'sellers',
    columns: ['seller_no', 'person_id'],
    say: (what, line) => `Name each partner once: seller number ${what} is already in line ${line}.`,
  },
  { table: 'buyers', columns: ['buyer_no'], say: taken('buyer a number') },
  { table: 'lots', columns: ['lot_no'], say: taken('lot a number') },
  {
    table: 'tags',
    columns: ['tag'],
    say: (what, line) => `Check the number on the piece: tag ${what} is already in line ${line}.`,
  },
  {
    table: 'results',
    columns: ['lot_no'],
    say: (what, line) => `Keep one result a lot: lot ${what} already has one in line ${line}.`,
  },
];

export function checkDuplicates(rows: Rows, report: Report): void {
  for (const once of ONCE) {
    const { file } = TABLES[once.table];
    for (const { line, what, first } of repeated(rows, once)) {
      const column = once.columns.at(-1) ?? '-';
      report({ file, line, column }, refuse('taken', once.say(what, first)));
    }
  }
}

interface Repeated {
  readonly line: number;
  readonly what: string;
  /** The line on which it stood first. */
  readonly first: number;
}

function repeated(rows: Rows, { table, columns }: Once): Repeated[] {
  const seen = new Map<string, number>();
  return rows[table].flatMap(({ line, cells }): Repeated[] => {
    const values = columns.map((column) => (cells as Readonly<Record<string, unknown>>)[column]);
    if (values.includes(undefined)) return [];
    const what = values.join(', ');
    const first = seen.get(what);
    if (first !== undefined) return [{ line, what, first }];
    seen.set(what, line);
    return [];
  });
}

/** The lines of `tags.csv` whose tag stood there before. */
export function doubledTagLines(rows: Rows): ReadonlySet<number> {
  const tags = ONCE.find(({ table }) => table === 'tags');
  return new Set(tags === undefined ? [] : repeated(rows, tags).map(({ line }) => line));
}

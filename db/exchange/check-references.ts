/** Whether what a row refers to is in the folder. */
import { refuse } from '#lib/result.ts';
import type { Report } from './problem.ts';
import type { RawFolder } from './raw.ts';
import { saleLine } from './read-sale.ts';
import type { Rows } from './rows.ts';
import { SALE_FILE, TABLES, type TableName } from './tables.ts';

interface Reference {
  readonly from: TableName;
  readonly column: string;
  readonly to: TableName;
}

const REFERENCES: readonly Reference[] = [
  { from: 'sellers', column: 'person_id', to: 'people' },
  { from: 'buyers', column: 'person_id', to: 'people' },
  { from: 'lots', column: 'seller_no', to: 'sellers' },
  { from: 'lots', column: 'goods', to: 'goods' },
  { from: 'tags', column: 'lot_no', to: 'lots' },
  { from: 'bids', column: 'lot_no', to: 'lots' },
  { from: 'bids', column: 'buyer_no', to: 'buyers' },
  { from: 'results', column: 'lot_no', to: 'lots' },
  { from: 'results', column: 'buyer_no', to: 'buyers' },
  { from: 'charges', column: 'seller_no', to: 'sellers' },
  { from: 'payments', column: 'buyer_no', to: 'buyers' },
  { from: 'payments', column: 'seller_no', to: 'sellers' },
  { from: 'payments', column: 'person_id', to: 'people' },
];

const NOUNS: Readonly<Partial<Record<TableName, string>>> = {
  people: 'person',
  sellers: 'seller number',
  buyers: 'buyer number',
  lots: 'lot',
  goods: 'kind of goods',
};

export function checkReferences(raw: RawFolder, rows: Rows, report: Report): void {
  const known = knownKeys(raw, rows);
  const toldOf = new Set<TableName>();
  for (const reference of REFERENCES) {
    const keys = known.get(reference.to);
    if (keys === undefined) continue;
    for (const { line, value } of strays(rows, reference, keys)) {
      // One missing file is one problem, however many rows would need it.
      if (raw.tables[reference.to].absent && toldOf.has(reference.to)) continue;
      toldOf.add(reference.to);
      reportStray(raw, { ...reference, line, value }, report);
    }
  }
}

/** The keys of each file that is referred to; none for a file whose keys could not be read. */
function knownKeys(raw: RawFolder, rows: Rows): Map<TableName, ReadonlySet<string>> {
  const known = new Map<TableName, ReadonlySet<string>>();
  for (const to of new Set(REFERENCES.map((reference) => reference.to))) {
    const key = TABLES[to].keys[0];
    if (key === undefined || raw.tables[to].lacking.has(key)) continue;
    known.set(to, new Set(rows[to].map(({ cells }) => String((cells as Readonly<Record<string, unknown>>)[key]))));
  }
  return known;
}

function strays(
  rows: Rows,
  { from, column }: Reference,
  known: ReadonlySet<string>,
): { line: number; value: string }[] {
  return rows[from].flatMap(({ line, cells }) => {
    const value = (cells as Readonly<Record<string, unknown>>)[column];
    return value === undefined || value === null || known.has(String(value)) ? [] : [{ line, value: String(value) }];
  });
}

interface Stray extends Reference {
  readonly line: number;
  readonly value: string;
}

function reportStray(raw: RawFolder, { from, column, to, line, value }: Stray, report: Report): void {
  const { file } = TABLES[from];
  const target = TABLES[to].file;
  if (raw.tables[to].absent) {
    const say = `Add this file: ${file} names the ${NOUNS[to]} ${value} in line ${line}.`;
    report({ file: target, line: 1, column: '-' }, refuse('missing', say));
    return;
  }
  const say = `Correct this, or add it to ${target}: there is no ${NOUNS[to]} ${value} there.`;
  report({ file, line, column }, refuse('unknown', say));
}

/** Whether the goods that pay another commission are among the sale's goods. */
export function checkOverrides(
  raw: RawFolder,
  { overrides, rows }: { overrides: readonly string[]; rows: Rows },
  report: Report,
): void {
  if (raw.tables.goods.lacking.has('goods')) return;
  const known = new Set(rows.goods.map(({ cells }) => cells.goods));
  for (const goods of overrides) {
    if (known.has(goods)) continue;
    const column = `terms.commission_overrides.${goods}`;
    const say = `Correct this, or add it to goods.csv: there is no kind of goods ${goods} there.`;
    report({ file: SALE_FILE, line: saleLine(raw.saleLines, column), column }, refuse('unknown', say));
  }
}

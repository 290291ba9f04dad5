import { CSV_FILES, type CsvFile, columnsOf, csvOf, type FolderRow } from '#tests/support/folder-text.ts';
import { type Chance, chanceOf } from '#tests/support/random.ts';
import type { RandomFolder } from '#tests/support/random-folder.ts';

/** The same folder as another program might write it: other line ends, a byte-order mark, columns and rows about. */
export function untidyFilesOf(seed: number, { sale, rows }: RandomFolder): Record<string, string> {
  const chance = chanceOf(seed);
  const mark = () => (chance.once(2) ? '\ufeff' : '');
  const files: Record<string, string> = { 'sale.json': `${mark()}${JSON.stringify(sale)}` };
  for (const file of CSV_FILES) {
    if (rows[file].length === 0 && !['people.csv', 'sellers.csv', 'lots.csv'].includes(file)) continue;
    const used = columnsOf(file).filter(
      (column) => isNeeded(file, column) || rows[file].some((row) => row[column] !== ''),
    );
    const text = csvOf(chance.shuffled(used), shuffledRows(chance, file, rows[file]), chance.pick(['\n', '\r\n']));
    files[file] = `${mark()}${chance.once(2) ? text : text.replace(/\r?\n$/, '')}`;
  }
  return files;
}

const NEEDED: Readonly<Record<CsvFile, string>> = {
  'goods.csv': 'goods name by',
  'people.csv': 'person_id name',
  'sellers.csv': 'seller_no person_id parts',
  'buyers.csv': 'buyer_no person_id',
  'lots.csv': 'lot_no seller_no goods by',
  'tags.csv': 'lot_no tag',
  'bids.csv': 'lot_no buyer_no price',
  'results.csv': 'lot_no outcome',
  'charges.csv': 'seller_no kind amount how',
  'payments.csv': 'direction method amount paid_at',
};

function isNeeded(file: CsvFile, column: string): boolean {
  return NEEDED[file].split(' ').includes(column);
}

/** Rows whose order is theirs by their numbers; the order within a seller number or a lot is kept. */
function shuffledRows(chance: Chance, file: CsvFile, rows: readonly FolderRow[]): FolderRow[] {
  const sorted = ['sellers.csv', 'buyers.csv', 'lots.csv', 'tags.csv', 'results.csv'].includes(file);
  if (!sorted) return [...rows];
  const key = columnsOf(file)[0] ?? '';
  const numbers = chance.shuffled([...new Set(rows.map((row) => row[key]))]);
  return numbers.flatMap((number) => rows.filter((row) => row[key] === number));
}

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { type Book, openBookInMemory } from '#db/book/open.ts';
import { folderTexts } from '#db/exchange/export-sale.ts';
import { type ImportDone, importFolder, problemsOf } from '#db/exchange/import-folder.ts';
import { problemLine } from '#db/exchange/problem.ts';
import { readFolder } from '#db/exchange/read-folder.ts';
import { type Chance, chanceOf } from './random.ts';
import { tempFolder } from './temp.ts';

/** Imports and exports folders in this process, as the command line does. */

type Files = Readonly<Record<string, string | Uint8Array>>;

export const IMPORTER = { worker: 'test', at: '2026-03-01T12:00:00.000Z' };

/** Imports files that must be right. */
export function importFiles(book: Book, files: Files): ImportDone {
  const folder = readFolder(folderOf(files));
  const problems = problemsOf(folder, book).map(problemLine);
  if (problems.length > 0) throw new Error(problems.join('\n'));
  const done = importFolder(book, folder, IMPORTER);
  if (!done.ok) throw new Error(done.problems.join('\n'));
  return done;
}

/** Everything that is wrong with files, one `file:line column: sentence` each. */
export function problemsIn(files: Files, book: Book | null = null): string[] {
  return problemsOf(readFolder(folderOf(files)), book).map(problemLine);
}

/** The same, without the sentences. */
export function placesIn(files: Files, book: Book | null = null): string[] {
  return problemsIn(files, book).map((problem) => problem.slice(0, problem.indexOf(': ')));
}

/** What the door itself says of files whose form is right, without the checks that come before it. */
export function doorSays(book: Book, files: Files): string[] {
  const answer = importFolder(book, readFolder(folderOf(files)), IMPORTER);
  return answer.ok ? [] : [...answer.problems];
}

export function exportFiles(book: Book, saleId: number): Record<string, string> {
  return Object.fromEntries(folderTexts(book, saleId));
}

/** The same without the journal, which tells what a book did: one that took in a folder did little else. */
export function withoutJournal({ 'journal.csv': _csv, 'journal.ledger': _ledger, ...files }: Record<string, string>) {
  return files;
}

/** Runs with a new book in memory that is closed in the end. */
export function withBook<T>(use: (book: Book) => T): T {
  const book = openBookInMemory();
  try {
    return use(book);
  } finally {
    book.close();
  }
}

/** Exchange folders on the disk, as tests make and read them. */

/** A new folder with these files. */
export function folderOf(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = tempFolder('folder');
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

export function filesIn(folder: string): Record<string, string> {
  const files = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(files.map(({ name }) => [name, readFileSync(join(folder, name), 'utf8')]));
}

/** The rows of a CSV text by column. */
export function rowsIn(text: string): FolderRow[] {
  return parse(text, { columns: true, bom: true }) as FolderRow[];
}

/** The header and rows of a CSV text as cells. */
export function cellsIn(text: string): string[][] {
  return parse(text, { bom: true }) as string[][];
}

/** The folder of a worked sale. */
export function caseFolder(name: string): string {
  return fileURLToPath(new URL(`../cases/${name}`, import.meta.url));
}

/** The files of a worked sale with changes of the text of some. Throws where a change changes nothing. */
export function changed(name: string, changes: readonly (readonly [file: string, from: string, to: string])[]) {
  const files = filesIn(caseFolder(name));
  for (const [file, from, to] of changes) {
    const before = files[file] ?? '';
    const after = before.replace(from, () => to);
    if (after === before) throw new Error(`${file} does not hold ${from}`);
    files[file] = after;
  }
  return files;
}

/** The files of an exchange folder as text: written apart from the program's own writer. */

export type FolderRow = Readonly<Record<string, string>>;

/** The columns of the files that go in and out again, in the order of writing. */
export const COLUMNS = {
  'goods.csv': 'goods,name,scientific_name,by,export_tag,tag_species_code,season_limit',
  'people.csv':
    'person_id,name,street,city,region,postcode,phone,email,member_no,member_until,licence_no,licence_region,licence_expires',
  'sellers.csv': 'seller_no,person_id,parts',
  'buyers.csv': 'buyer_no,person_id,licence_no,tax_exempt,exempt_no,cleared',
  'lots.csv': 'lot_no,seller_no,goods,by,count,weight,size,grade,section,minimum,donated,note',
  'tags.csv': 'lot_no,tag',
  'bids.csv': 'lot_no,buyer_no,price,received_at',
  'results.csv': 'lot_no,outcome,price,buyer_no',
  'charges.csv': 'seller_no,kind,amount,how,note',
  'payments.csv': 'direction,buyer_no,seller_no,person_id,method,amount,reference,paid_at',
  'takings.csv': 'kind,method,amount,note,taken_at',
  'deposits.csv': 'deposit,day,cash,on_statement',
  'arrivals.csv': 'method,day,amount,fee',
} as const;

export type CsvFile = keyof typeof COLUMNS;
export const CSV_FILES = Object.keys(COLUMNS) as CsvFile[];

/** The columns that stand in the file only where a row has something to say there. */
const LATER: Readonly<Partial<Record<CsvFile, readonly string[]>>> = {
  'results.csv': ['fate'],
  'payments.csv': ['deposit', 'on_statement'],
};

/** The columns of a file that has these rows. */
export function columnsOf(file: CsvFile, rows: readonly FolderRow[] = []): string[] {
  const later = LATER[file] ?? [];
  const said = later.filter((column) => rows.some((row) => (row[column] ?? '') !== ''));
  return [...COLUMNS[file].split(','), ...said];
}

/** One CSV text: every cell in quotes where `quoteAll`, else only where it must be. */
export function csvOf(columns: readonly string[], rows: readonly FolderRow[], newline = '\r\n'): string {
  const cell = (text: string) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  const lines = [columns, ...rows.map((row) => columns.map((column) => row[column] ?? ''))];
  return lines.map((cells) => `${cells.map(cell).join(',')}${newline}`).join('');
}

export type FolderRows = Record<CsvFile, FolderRow[]>;

export interface RandomFolder {
  readonly sale: Readonly<Record<string, unknown>>;
  /** In the order and the spelling in which they are to come out again. */
  readonly rows: FolderRows;
}

/** The same folder as another program might write it: other line ends, a byte-order mark, columns and rows about. */
export function untidyFilesOf(seed: number, { sale, rows }: RandomFolder): Record<string, string> {
  const chance = chanceOf(seed);
  const mark = () => (chance.once(2) ? '\ufeff' : '');
  const files: Record<string, string> = { 'sale.json': `${mark()}${JSON.stringify(sale)}` };
  for (const file of CSV_FILES) {
    if (rows[file].length === 0 && !['people.csv', 'sellers.csv', 'lots.csv'].includes(file)) continue;
    const used = columnsOf(file, rows[file]).filter(
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
  'takings.csv': 'kind method amount taken_at',
  'deposits.csv': 'deposit day cash',
  'arrivals.csv': 'method day amount fee',
};

function isNeeded(file: CsvFile, column: string): boolean {
  return NEEDED[file].split(' ').includes(column);
}

/** Rows whose order is theirs by their numbers; the order within a seller number or a lot is kept. */
function shuffledRows(chance: Chance, file: CsvFile, rows: readonly FolderRow[]): FolderRow[] {
  const sorted = ['sellers.csv', 'buyers.csv', 'lots.csv', 'tags.csv', 'results.csv', 'deposits.csv'].includes(file);
  if (!sorted) return [...rows];
  const key = columnsOf(file)[0] ?? '';
  const numbers = chance.shuffled([...new Set(rows.map((row) => row[key]))]);
  return numbers.flatMap((number) => rows.filter((row) => row[key] === number));
}

import { randomUUID } from 'node:crypto';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import { submit } from '#db/book/door.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { folderTexts, writeFolder } from '#db/exchange/export-sale.ts';
import { importFolder, problemsOf } from '#db/exchange/import-folder.ts';
import { checkPriceList, readPriceList, rowsToGive } from '#db/exchange/price-list.ts';
import {
  type Problem,
  problemLine,
  problemList,
  type RawTable,
  refusalLines,
  sortProblems,
} from '#db/exchange/problem.ts';
import { type FolderRead, readFolder } from '#db/exchange/read-folder.ts';
import { allSales } from '#db/sale/queries.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import {
  type ExitCode,
  type Given,
  makeBook,
  type Subcommand,
  type Voice,
  withBook,
  withLeadingBook,
} from './subcommand.ts';

const WORKER = 'command line';

export const importCommand: Subcommand = {
  name: 'import',
  takes: '<folder>',
  says: 'takes a sale into the book from an exchange folder, all or nothing',
  run({ book: file, path }, voice) {
    const folder = readFolder(path);
    for (const name of folder.ignored) voice.warn(`${name} is not a file of an exchange folder and was not read.`);
    if (!existsSync(file)) {
      // A book is made only for a folder that can go into it.
      const problems = problemsOf(folder, null).map(problemLine);
      if (problems.length > 0) return refused(voice, 'imported', problems);
      const made = makeBook(file);
      if (!made.ok) return refused(voice, 'imported', [made.message]);
      voice.warn(`There was no book at ${file}: an empty one was made.`);
    }
    return withLeadingBook(file, (book) => importInto(book, folder, voice));
  },
};

function importInto(book: Book, folder: FolderRead, voice: Voice): ExitCode {
  const problems = problemsOf(folder, book).map(problemLine);
  if (problems.length > 0) return refused(voice, 'imported', problems);
  const done = importFolder(book, folder, { worker: WORKER, at: new Date().toISOString() });
  if (!done.ok) return refused(voice, 'imported', done.problems);
  const held = done.onHold > 0 ? ` (${done.onHold} on hold for their tags)` : '';
  const what = `${counted(done.lots, 'lot')}${held}, ${counted(done.people, 'person')}`;
  voice.say(`Imported ${done.name}: ${what}, log line ${done.line}.`);
  return 0;
}

function refused(voice: Voice, what: 'imported' | 'taken in', problems: readonly string[]): ExitCode {
  for (const problem of problems) voice.warn(problem);
  voice.say(`Nothing was ${what}: ${counted(problems.length, 'problem')}.`);
  return 1;
}

function counted(n: number, noun: 'lot' | 'person' | 'problem' | 'row'): string {
  if (n === 1) return `1 ${noun}`;
  return `${n} ${noun === 'person' ? 'people' : `${noun}s`}`;
}

export const exportCommand: Subcommand = {
  name: 'export',
  takes: '<folder>',
  takesSale: true,
  says: 'writes a sale as an exchange folder, with what follows from it',
  run: ({ book: file, path, sale: named }, voice) =>
    withBook(file, (book) => {
      // One read over all tables, so that entries made meanwhile are in the whole folder or in none of it.
      book.sqlite.exec('BEGIN');
      const sale = chooseSale(allSales(book), named);
      if (!sale.ok) {
        voice.warn(sale.message);
        // Several sales and none named is a word that is missing from the call, not something wrong with the book.
        return sale.code === 'missing' ? 2 : 1;
      }
      const texts = folderTexts(book, sale.value.id);
      writeFolder(path, texts);
      voice.say(`Exported ${sale.value.name}: ${texts.size} files in ${path}.`);
      return 0;
    }),
};

/** The only sale, or the one that is named by its id or its name; a name that several share is not enough. */
function chooseSale(sales: readonly SaleRow[], named: string | undefined): Result<SaleRow> {
  const found = named === undefined ? sales : sales.filter(({ id, name }) => String(id) === named || name === named);
  const [only, ...others] = found;
  if (only !== undefined && others.length === 0) return accept(only);
  if (sales.length === 0) return refuse('unknown', 'There is no sale in this book: import one first.');
  const list = sales.map(({ id, name, heldOn }) => `  ${id}  ${heldOn}  ${name}`).join('\n');
  const why = only === undefined ? `There is no sale ${named} in this book.` : 'There are several sales.';
  return refuse(named === undefined ? 'missing' : 'unknown', `${why} Say which with --sale and its id:\n${list}`);
}

export const importPrices: Subcommand = {
  name: 'import-prices',
  takes: '<file>',
  says: 'takes in a plain price list of seasons whose sale is not in the book, all or nothing',
  run: (given, voice) => takeIn(given, false, voice),
};

export const replacePrices: Subcommand = {
  name: 'replace-prices',
  takes: '<file>',
  says: 'the same, in place of what stood for its seasons before',
  run: (given, voice) => takeIn(given, true, voice),
};

function takeIn({ book: bookFile, path }: Given, replaces: boolean, voice: Voice): ExitCode | Promise<ExitCode> {
  if (!existsSync(path) || !statSync(path).isFile())
    return refused(voice, 'taken in', [`There is no file ${path}: check the path.`]);
  return withLeadingBook(bookFile, (book) => {
    const file = basename(path);
    const { raw, problems } = readPriceList(file, readFileSync(path));
    if (problems.length > 0) return refused(voice, 'taken in', allProblems(file, raw, problems));
    const envelope = { command: 'prices.import', station: 'office', worker: WORKER, key: randomUUID() } as const;
    const input = { file, rows: rowsToGive(raw), replaces };
    const answer = submit(book, { ...envelope, at: new Date().toISOString(), input });
    if (!answer.ok) return refused(voice, 'taken in', refusalLines(answer));
    const { rows, seasons } = answer.value;
    voice.say(`Took in ${counted(rows, 'row')} of ${seasons.join(', ')}, log line ${answer.line}.`);
    return 0;
  });
}

/** Where the form of the file is amiss already, its cells are read all the same, so that everything is told at once. */
function allProblems(file: string, { rows, lacking }: RawTable, problems: readonly Problem[]): string[] {
  const cells = problemList();
  if (lacking.size === 0 && rows.length > 0) checkPriceList(file, rows, cells.report);
  return sortProblems([...problems, ...cells.problems]).map(problemLine);
}

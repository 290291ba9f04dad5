/** Imports and exports folders in this process, as the command line does. */
import { folderTexts } from '#db/exchange/export-sale.ts';
import { type ImportDone, importFolder, problemsOf } from '#db/exchange/import-folder.ts';
import { problemLine } from '#db/exchange/problem.ts';
import { readFolder } from '#db/exchange/read-folder.ts';
import { type Book, openBookInMemory } from '#db/open.ts';
import { folderOf } from '#tests/support/folder.ts';

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

/** Runs with a new book in memory that is closed in the end. */
export function withBook<T>(use: (book: Book) => T): T {
  const book = openBookInMemory();
  try {
    return use(book);
  } finally {
    book.close();
  }
}

/** A book that another laptop leads: the mark beside it, what the leading book lacks of it, and the words for both. */
import { existsSync, readFileSync, renameSync } from 'node:fs';
import { CannotOpenBook, syncFolderOf, writeToDisk } from '#db/book/files.ts';
import { type LogRow, newestLine } from '#db/book/log.ts';
import { bookCommand } from '#db/book/missing.ts';
import { type Book, bookToRead } from '#db/book/open.ts';
import { openQuietly } from '#db/book/open-for-reading.ts';
import type { Trouble } from '#db/book/trouble.ts';
import { csvText } from '#db/exchange/csv.ts';
import { momentIn } from '#db/sale/queries.ts';
import { logLines } from '#db/verify/chain.ts';
import { counted } from '#lib/backup/backups.ts';
import { withoutFormula } from '#lib/result/text.ts';
import { highestOf, isAbove, type Lead, leadIn, leadOf, sharedWith } from './lead.ts';

/** The mark outlasts the program, and is no part of the log: the log may be followed, this may not. */
function deposedFile(book: string): string {
  return `${book}.deposed`;
}

/** Writes down who leads, on the disk before it counts. Throws where the disk fails. */
export function markDeposed(book: string, said: Lead): void {
  const file = deposedFile(book);
  writeToDisk(`${file}.new`, `${JSON.stringify(said, null, 2)}\n`);
  renameSync(`${file}.new`, file);
  syncFolderOf(file);
}

/**
 * Who leads in the place of this book; null where it leads itself. A mark that is older than the book's own epoch says
 * nothing any more: the book has taken over since, or has followed.
 */
export function deposedBy(book: Book): Lead | null {
  const file = deposedFile(book.file);
  if (!existsSync(file)) return null;
  const said = leadIn(readFileSync(file, 'utf8'));
  if (!said) throw new CannotOpenBook(`${file} says that another laptop leads this book, and cannot be read.`);
  return isAbove(said, book) ? said : null;
}

/** The highest lead among copies of the book, such as those that the leading laptop has written to a stick. */
export function leadAmong(files: readonly string[], book: Book): Lead | null {
  const above = files.flatMap((file) => {
    const said = leadOfFile(file);
    return said && isAbove(said, book) ? [said] : [];
  });
  return highestOf(above);
}

/** A copy that cannot be read, or is of an older version, says nothing. */
function leadOfFile(file: string): Lead | null {
  try {
    const sqlite = openQuietly(file);
    try {
      return leadOf(bookToRead(file, sqlite));
    } finally {
      sqlite.close();
    }
  } catch {
    return null;
  }
}

/** How many entries of this book the leading one lacks, as far as that is known. */
export function leftOut(book: Book, said: Lead): number {
  return newestLine(book) - sharedWith(book, said);
}

const COLUMNS = ['line', 'at', 'worker', 'station', 'command', 'input', 'result'] as const;
/** A worker's passphrase is only there as its hash, and even that goes into no file. */
const KEPT_BACK = /^worker\./;

/** The entries that the leading book lacks, as RFC 4180 CSV: to be read, and entered there by hand. */
export function leftOutText(book: Book, said: Lead): string {
  const shared = sharedWith(book, said);
  const rows = [...logLines(book.sqlite, { seq: shared, hash: '' })].map(cellsOf);
  return csvText(COLUMNS, rows);
}

function cellsOf({ seq, at, worker, station, command, input, result }: LogRow): string[] {
  const texts = [at, worker, station, command, KEPT_BACK.test(command) ? '' : input, result];
  return [String(seq), ...texts.map((text) => withoutFormula(text))];
}

/** Why nothing is written to a book that another laptop leads. */
export function troubleOfDeposed(book: Book, said: Lead): Trouble {
  const many = leftOut(book, said);
  const own =
    many === 0
      ? 'The leading book has every entry of this one.'
      : `The leading book lacks ${counted(many)} of this one: nothing was merged, and nothing is deleted.`;
  const keep =
    many === 0
      ? ''
      : ` First keep what the leading book lacks: “${LEFT_OUT}” on the page “What is the matter”, or type: ${bookCommand('left-out', book.file)}`;
  return {
    kind: 'deposed',
    title: `The laptop “${said.laptop}” leads this book now: nothing is written here.`,
    happened: `“${said.laptop}” took over on ${momentIn(book, said.at)}. ${own}`,
    safe: 'Everything in this book can be read. What waits in a browser is kept there, and goes in once the browser reaches the leading laptop at this address. Where that laptop has another address, the page “See what waits” shows it: enter it there by hand, then discard it here.',
    toDo: `Stop entering here, and go on at “${said.laptop}”.${keep}\nThen stop the program here, move this book to another folder, and let this laptop follow the other: docs/backups.md says how.`,
  };
}

export const LEFT_OUT = 'Not in the leading book';

/** What the command line says instead of writing. */
class DeposedBook extends CannotOpenBook {}

/** @throws DeposedBook where another laptop leads the book: nothing is written to it. */
export function assertLeads(book: Book): void {
  const said = deposedBy(book);
  if (!said) return;
  const { title, toDo } = troubleOfDeposed(book, said);
  throw new DeposedBook(`${title} ${toDo}`);
}

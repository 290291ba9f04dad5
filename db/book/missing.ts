/** A book that is not where the start looks for it: whether a new one may be made there, and if not, what to do. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { timeZoneOfFile } from '#db/sale/queries.ts';
import { momentInWords } from '#lib/date/date.ts';
import { copiesIn, EMPTY_CHAIN, lackingIn } from './copies.ts';
import { withOpenForm } from './lock.ts';

interface Looked {
  /** Whether somebody said where the book or its backups are. */
  readonly configured: boolean;
  /** The folders in which its backups would be. */
  readonly folders: readonly string[];
}

/**
 * Why the program must not make a new book at `file`; null where one stands there, or where nothing speaks of one that
 * was there before: a mistyped path must not become a second, empty book.
 */
export function whyNoBook(file: string, { configured, folders }: Looked): string | null {
  const found = statSync(file, { throwIfNoEntry: false });
  if (found && !(found.isFile() && found.size === 0)) return null;
  const beside = namesIn(dirname(file)).filter((name) => name !== basename(file) && name.includes('.book'));
  const copies = folders.some((folder) => namesIn(folder).some((name) => name.includes('.book')));
  if (!found && !configured && !copies && beside.length === 0) return null;
  const left = [...(found ? [basename(file)] : []), ...beside.filter((name) => isPartOf(name, file))];
  return [
    found ? `The book ${file} is empty.` : `There is no book at ${file}.`,
    'None is made by itself, because the path may be mistyped, or the book may have been moved.',
    ...otherBooks(file, beside),
    ...left.map(
      (name) => `${name} may hold a part of the book: move it to another folder first, and do not delete it.`,
    ),
    ...newestBackup(file, folders),
    `For a new, empty book: ${bookCommand('init', file)}`,
  ].join('\n');
}

function namesIn(folder: string): string[] {
  return existsSync(folder) && statSync(folder).isDirectory() ? readdirSync(folder) : [];
}

function isPartOf(name: string, file: string): boolean {
  return ['-wal', '-journal'].some((end) => name === `${basename(file)}${end}`);
}

function otherBooks(file: string, beside: readonly string[]): string[] {
  const books = beside.filter((name) => name.endsWith('.book'));
  const [first = ''] = books;
  return books.length === 0
    ? []
    : [`Beside it are: ${books.join(', ')}. To open one: PELTRY_BOOK=${quoted(join(dirname(file), first))} npm start`];
}

/** The longest backup that is as it was written, of several the newest. */
function newestBackup(file: string, folders: readonly string[]): string[] {
  const copies = folders.flatMap((folder) => copiesIn(folder, file));
  const whole = lackingIn(copies, EMPTY_CHAIN)?.whole;
  const copy = copies.find((one) => one.file === whole?.file);
  if (!copy) return [];
  const at = momentInWords(copy.at, withOpenForm(file, copy.file, timeZoneOfFile) ?? 'UTC');
  return [`To go on from the newest whole backup, of ${at}: ${restoreCommand(copy.file, file)}`];
}

/** What to type to bring a backup back. */
export function restoreCommand(copy: string, file: string): string {
  return bookCommand(`restore ${quoted(copy)}`, file);
}

/** What to type on the command line of the book. */
export function bookCommand(what: string, file: string): string {
  return `npm run --silent book -- ${what} --book ${quoted(file)}`;
}

/** As a shell reads it as one word. */
export function quoted(path: string): string {
  return /[^\w@%+=:,./\\-]/.test(path) ? `"${path}"` : path;
}

/** Looks at a file before it is opened to be written: what is no book, or not ours to write, is left as it was. */
import { closeSync, existsSync, openSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { DamagedBook, FromNewerVersion, NotABook, ReadOnlyBook } from './files.ts';
import { appliedCount, hasForeignMigration, knownCount } from './migrate.ts';
import { openQuietly } from './open-for-reading.ts';
import { isSealed } from './seal.ts';

/** `PRAGMA application_id` of every book: the letters PLTY. */
export const APPLICATION_ID = 1347179609;

const NEWER = 'was written by a newer Peltry. Open it with that version or a later one.';

/** @throws CannotOpenBook where the file cannot be opened as a book and written to. */
export function assertBookFile(path: string, mayBeNew: boolean): void {
  assertPresent(path, mayBeNew);
  if (!existsSync(path) || statSync(path).size === 0) return;
  assertWritable(path);
  const sqlite = openQuietly(path);
  try {
    assertBook(sqlite, path, mayBeNew);
    if (hasForeignMigration(sqlite)) throw new FromNewerVersion(`${path} ${NEWER}`);
  } finally {
    sqlite.close();
  }
}

/** @throws NotABook where there is no file, or nothing that could be a book. */
export function assertPresent(path: string, mayBeNew: boolean): void {
  if (!existsSync(path)) {
    if (mayBeNew) return;
    throw new NotABook(`There is no book at ${path}. Check the path, or make a new book there.`);
  }
  const found = statSync(path);
  if (found.isDirectory()) throw new NotABook(`${path} is a folder. Name the book's file in it.`);
  if (!found.isFile()) throw new NotABook(`${path} is not a file. Name the book's file.`);
  if (found.size === 0 && !mayBeNew) throw new NotABook(`${path} is empty. Restore the book from a backup.`);
}

/**
 * Asks for the right to write by opening the file, because SQLite falls back to reading without a word and because
 * the permission bits do not know of a medium that is locked.
 */
function assertWritable(path: string): void {
  try {
    closeSync(openSync(path, 'r+'));
  } catch {
    throw new ReadOnlyBook(`${path} cannot be written to. Allow it, or copy the book to a place where you may write.`);
  }
}

/** @throws NotABook or FromNewerVersion for an open SQLite file that this program must not write to. */
export function assertBook(sqlite: Database.Database, path: string, mayBeNew: boolean): void {
  const { id, objects } = whatItIs(sqlite, path);
  if (id !== APPLICATION_ID && !(mayBeNew && id === 0 && objects === 0)) {
    throw new NotABook(`${path} is a database of another kind, not a book. Choose the book's own file.`);
  }
  if (appliedCount(sqlite) > knownCount()) {
    throw new FromNewerVersion(`${path} ${NEWER}`);
  }
}

function whatItIs(sqlite: Database.Database, path: string): { id: unknown; objects: unknown } {
  try {
    const id = sqlite.pragma('application_id', { simple: true });
    return { id, objects: sqlite.prepare('SELECT count(*) FROM sqlite_master').pluck().get() };
  } catch (fault) {
    const code = codeOf(fault);
    if (code === 'SQLITE_NOTADB') {
      if (isSealed(path))
        throw new NotABook(`${path} is a locked backup. Restore it with its passphrase, then open that.`);
      throw new NotABook(`${path} is not a book but some other file. Choose the book's own file.`);
    }
    if (!code.startsWith('SQLITE_CORRUPT')) throw fault;
    throw new DamagedBook(`${path} is damaged and cannot be read. Restore the book from a backup.`);
  }
}

/** SQLite's name of what went wrong, or an empty text for a fault of another origin. */
export function codeOf(fault: unknown): string {
  return fault instanceof Error && 'code' in fault && typeof fault.code === 'string' ? fault.code : '';
}

export interface Claim {
  release(): void;
}

/** The empty file whose lock says that a server has the book; it holds nothing and may be deleted when none runs. */
export function claimFile(book: string): string {
  return `${book}-server`;
}

/** Claims the book for this process, or gives null where another one serves it. @throws ReadOnlyBook where none can. */
export function claimBook(book: string): Claim | null {
  const sqlite = openClaim(book);
  try {
    sqlite.pragma('locking_mode = EXCLUSIVE');
    sqlite.exec('BEGIN EXCLUSIVE');
    return { release: () => sqlite.close() };
  } catch (fault) {
    sqlite.close();
    if (codeOf(fault).startsWith('SQLITE_BUSY')) return null;
    throw fault;
  }
}

function openClaim(book: string): Database.Database {
  try {
    return new Database(claimFile(book), { timeout: 0 });
  } catch {
    throw new ReadOnlyBook(`Nothing can be written beside ${book}. Allow it, or copy the book where you may write.`);
  }
}

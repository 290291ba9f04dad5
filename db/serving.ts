/** One server a book: who serves it holds a lock that the system takes back when the process ends, however it ends. */
import Database from 'better-sqlite3';
import { codeOf } from './check-file.ts';
import { ReadOnlyBook } from './faults.ts';

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

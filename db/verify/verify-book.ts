/** Proves a book: the file, the chain of its log, the replay of the log, and the money. Writes nothing. */
import { resolve } from 'node:path';
import type Database from 'better-sqlite3';
import { assertBook, assertPresent } from '../check-file.ts';
import { bookToRead } from '../open.ts';
import { openQuietly } from '../open-quietly.ts';
import { checkChain } from './chain.ts';
import { checkMoney } from './money.ts';
import { checkForeignKeys, checkIntegrity } from './pages.ts';
import { checkReplay } from './replayed.ts';
import type { VerifyReport } from './report.ts';
import { cannotOpen, summed } from './summary.ts';
import { upToDateCopy } from './up-to-date.ts';

/** Verifies the book at `file`. A damaged file, or none, is a report and no fault. */
export function verifyBook(file: string): VerifyReport {
  const path = resolve(file);
  let sqlite: Database.Database | undefined;
  try {
    assertPresent(path, false);
    sqlite = openQuietly(path);
    assertBook(sqlite, path, false);
    return verifyOpen(path, sqlite);
  } catch (fault) {
    return cannotOpen(path, fault);
  } finally {
    sqlite?.close();
  }
}

/** One read transaction over all parts, so that entries made meanwhile do not look like differences. */
function verifyOpen(file: string, sqlite: Database.Database): VerifyReport {
  sqlite.exec('BEGIN');
  try {
    return summed({
      file,
      opened: { ok: true, message: 'The file is a book.' },
      integrity: checkIntegrity(sqlite),
      foreignKeys: checkForeignKeys(sqlite),
      chain: checkChain(sqlite),
      ...checkContents(file, sqlite),
    });
  } finally {
    // SQLite ends the transaction by itself where it meets a damaged page.
    if (sqlite.inTransaction) sqlite.exec('ROLLBACK');
  }
}

/** The parts that need the tables as this version of the program has them. */
function checkContents(file: string, sqlite: Database.Database): Pick<VerifyReport, 'replay' | 'money'> {
  const copy = upToDateCopy(sqlite);
  try {
    const current = copy ?? sqlite;
    return { replay: checkReplay(current), money: checkMoney(bookToRead(file, current)) };
  } finally {
    copy?.close();
  }
}

/** Copies the open book to one file that stands alone, with its SHA-256 beside it. */
import { randomBytes } from 'node:crypto';
import { renameSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import Database from 'better-sqlite3';
import { checkChain, checkIntegrity } from '#db/verify/chain.ts';
import { differenceInContents } from '#db/verify/contents.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import { assertBook, assertPresent } from './check-file.ts';
import {
  CannotOpenBook,
  checksumFile,
  checksumLine,
  decideNewFile,
  removeCopy,
  sha256Of,
  syncFolderOf,
  syncToDisk,
  writeToDisk,
} from './files.ts';
import type { LogHead } from './log.ts';
import type { Book } from './open.ts';
import { openQuietly } from './open-for-reading.ts';

export interface BackupDone {
  readonly ok: true;
  readonly file: string;
  /** In hex, over the whole file; also in the file beside it. */
  readonly sha256: string;
  readonly logHead: LogHead;
  readonly bytes: number;
}

export type BackupReport = BackupDone | Refusal;

/**
 * Makes a new file at `target` by way of a draft beside it: the name only appears once `make` has put the draft there, and
 * no draft is left. A book that cannot be opened is refused; throws where the disk fails.
 */
export async function throughDraft<T>(
  target: string,
  make: (draft: string, goal: string) => Promise<T>,
): Promise<T | Refusal> {
  const goal = resolve(target);
  const free = decideNewFile(goal);
  if (!free.ok) return free;
  const draft = `${goal}.${randomBytes(4).toString('hex')}.partial`;
  try {
    return await make(draft, goal);
  } catch (fault) {
    if (fault instanceof CannotOpenBook) return refuse('unknown', fault.message);
    throw fault;
  } finally {
    removeCopy(draft);
  }
}

/** Backs up the book at `file`, which may be in use meanwhile, to a new file at `target`, read back whole. */
export function backupBook(file: string, target: string): Promise<BackupReport> {
  return throughDraft<BackupReport>(target, async (draft, goal) => {
    return copyOnline(resolve(file), draft, goal);
  });
}

/** Copies an open book as it stands in the open file, wherever that is by now, and reads the copy back. */
export function backupOpenBook({ sqlite }: Pick<Book, 'sqlite'>, target: string): Promise<BackupReport> {
  return throughDraft<BackupReport>(target, async (draft, goal) => {
    await sqlite.backup(draft);
    return keep({ draft, goal, original: sqlite });
  });
}

async function copyOnline(file: string, draft: string, goal: string): Promise<BackupReport> {
  assertPresent(file, false);
  const sqlite = openQuietly(file);
  try {
    assertBook(sqlite, file, false);
    // One moment of the book for the copy and for what it is compared with, whatever is entered meanwhile.
    sqlite.exec('BEGIN');
    sqlite.prepare('SELECT count(*) FROM sqlite_master').get();
    await sqlite.backup(draft);
    return await keep({ draft, goal, original: sqlite });
  } finally {
    sqlite.close();
  }
}

interface Draft {
  readonly draft: string;
  readonly goal: string;
  readonly original: Database.Database;
}

async function keep({ draft, goal, original }: Draft): Promise<BackupReport> {
  const read = readBack(draft, original);
  if (!read.ok) return read;
  syncToDisk(draft);
  const sha256 = await sha256Of(draft);
  const { size: bytes } = statSync(draft);
  // The sum goes first, so that no backup ever stands without it.
  writeToDisk(checksumFile(goal), checksumLine(sha256, goal));
  renameSync(draft, goal);
  syncFolderOf(goal);
  return { ok: true, file: goal, sha256, logHead: read.head, bytes };
}

/** Makes the copy stand alone, without a write-ahead log, reads all of it, and compares every row with the original's. */
function readBack(draft: string, original: Database.Database): { readonly ok: true; readonly head: LogHead } | Refusal {
  const sqlite = new Database(draft);
  try {
    sqlite.pragma('journal_mode = DELETE');
    const integrity = checkIntegrity(sqlite);
    const chain = checkChain(sqlite);
    if (integrity.ok && chain.ok) {
      const other = differenceInContents(sqlite, original);
      if (other === null) return { ok: true, head: chain.head };
      return refuse(
        'malformed',
        `No backup was made, because the copy is not what the book holds: ${other}. Copy it to another disk.`,
      );
    }
    const what = integrity.ok ? chain.message : integrity.message;
    return refuse('malformed', `No backup was made, because the book itself is not whole. ${what} Verify the book.`);
  } finally {
    sqlite.close();
  }
}

/** Copies the open book to one file that stands alone, with its SHA-256 beside it. */
import { randomBytes } from 'node:crypto';
import { renameSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import Database from 'better-sqlite3';
import { checkChain, checkIntegrity } from '#db/verify/chain.ts';
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
    await copyOnline(resolve(file), draft);
    return keep(draft, goal);
  });
}

/** Copies an open book as it stands in the open file, wherever that is by now, and reads the copy back. */
export function backupOpenBook({ sqlite }: Pick<Book, 'sqlite'>, target: string): Promise<BackupReport> {
  return throughDraft<BackupReport>(target, async (draft, goal) => {
    await sqlite.backup(draft);
    return keep(draft, goal);
  });
}

async function copyOnline(file: string, draft: string): Promise<void> {
  assertPresent(file, false);
  const sqlite = openQuietly(file);
  try {
    assertBook(sqlite, file, false);
    await sqlite.backup(draft);
  } finally {
    sqlite.close();
  }
}

async function keep(draft: string, goal: string): Promise<BackupReport> {
  const read = readBack(draft);
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

/** Makes the copy stand alone, without a write-ahead log, and reads all of it once. */
function readBack(draft: string): { readonly ok: true; readonly head: LogHead } | Refusal {
  const sqlite = new Database(draft);
  try {
    sqlite.pragma('journal_mode = DELETE');
    const integrity = checkIntegrity(sqlite);
    const chain = checkChain(sqlite);
    if (integrity.ok && chain.ok) return { ok: true, head: chain.head };
    const what = integrity.ok ? chain.message : integrity.message;
    return refuse('malformed', `No backup was made, because the book itself is not whole. ${what} Verify the book.`);
  } finally {
    sqlite.close();
  }
}

/** Copies the open book to one file that stands alone, with its SHA-256 beside it. */
import { createHash, randomBytes } from 'node:crypto';
import { renameSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import Database from 'better-sqlite3';
import { checkChain, checkIntegrity } from '#db/verify/chain.ts';
import { differenceInContents } from '#db/verify/contents.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
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
import { draftBeside, keyForCopy } from './lock.ts';
import type { LogHead } from './log.ts';
import type { Book } from './open.ts';
import { openQuietly } from './open-for-reading.ts';
import { type SealKey, sealFile, unseal } from './seal.ts';

export interface BackupDone {
  readonly ok: true;
  readonly file: string;
  /** In hex, over the whole file; also in the file beside it. */
  readonly sha256: string;
  readonly logHead: LogHead;
  readonly bytes: number;
  /** Where it is locked with a passphrase; the sum and the bytes are of the file as it lies there. */
  readonly locked?: true;
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
    return throughLock(file, { draft, goal }, (own) => copyOnline(resolve(file), own));
  });
}

/** Copies an open book as it stands in the open file, wherever that is by now, and reads the copy back. */
export function backupOpenBook({ sqlite, file }: Pick<Book, 'sqlite' | 'file'>, target: string): Promise<BackupReport> {
  return throughDraft<BackupReport>(target, (draft, goal) =>
    throughLock(file, { draft, goal }, async (own) => {
      await sqlite.backup(own.draft);
      return keep({ ...own, original: sqlite });
    }),
  );
}

/** Where a copy is written: `draft` on the way, which stands beside the book where it is locked behind it. */
interface Way {
  readonly draft: string;
  readonly goal: string;
  readonly lock?: { readonly key: SealKey; readonly draft: string };
}

/** What leaves the book's folder locked is never there in clear: the copy is made beside the book, and locked from there. */
async function throughLock(book: string, way: Way, make: (way: Way) => Promise<BackupReport>): Promise<BackupReport> {
  const key = keyForCopy(book, way.goal);
  if (!key) return make(way);
  const beside = draftBeside(book, way.goal);
  try {
    return await make({ draft: beside, goal: way.goal, lock: { key, draft: way.draft } });
  } finally {
    removeCopy(beside);
  }
}

async function copyOnline(file: string, way: Way): Promise<BackupReport> {
  assertPresent(file, false);
  const sqlite = openQuietly(file);
  try {
    assertBook(sqlite, file, false);
    // One moment of the book for the copy and for what it is compared with, whatever is entered meanwhile.
    sqlite.exec('BEGIN');
    sqlite.prepare('SELECT count(*) FROM sqlite_master').get();
    await sqlite.backup(way.draft);
    return await keep({ ...way, original: sqlite });
  } finally {
    sqlite.close();
  }
}

type Draft = Way & { readonly original: Database.Database };

async function keep({ draft: made, goal, lock, original }: Draft): Promise<BackupReport> {
  const read = readBack(made, original);
  if (!read.ok) return read;
  const sealed = lock ? await lockInto(made, lock) : null;
  if (sealed?.ok === false) return sealed;
  const draft = lock?.draft ?? made;
  syncToDisk(draft);
  const sha256 = await sha256Of(draft);
  const { size: bytes } = statSync(draft);
  // The sum goes first, so that no backup ever stands without it.
  writeToDisk(checksumFile(goal), checksumLine(sha256, goal));
  renameSync(draft, goal);
  syncFolderOf(goal);
  return { ok: true, file: goal, sha256, logHead: read.head, bytes, ...(lock && { locked: true }) };
}

/** Locks a file into another place, reads that back from there, and compares every byte. */
export async function lockInto(
  plain: string,
  { key, draft }: { readonly key: SealKey; readonly draft: string },
): Promise<Result<null>> {
  sealFile(plain, draft, key);
  syncToDisk(draft);
  const sum = createHash('sha256');
  const opened = unseal(draft, key, (piece) => sum.update(piece));
  if (opened.ok && sum.digest('hex') === (await sha256Of(plain))) return accept(null);
  return refuse('malformed', 'No backup was made: what came back from the drive is not what was written. Use another.');
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

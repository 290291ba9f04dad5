import { join } from 'node:path';
import type { AheadGround } from '#lib/backup-words.ts';
import type { Refusal } from '#lib/result.ts';
import { type BackupDone, backupBook } from './backup.ts';
import { aboutFile, copiesIn, nameOfCopy, thinOut } from './copies.ts';
import { chainIn, copiesAhead } from './copies-ahead.ts';
import { openQuietly } from './open-quietly.ts';
import { timeZoneOfFile } from './queries/local-days.ts';
import { writeToDisk } from './save-copy.ts';

export interface CopyKept extends BackupDone {
  /** The names of older copies that the rule let go. */
  readonly letGo: readonly string[];
  /** The copies in the folder that have entries the book does not. */
  readonly ahead: readonly AheadGround[];
}

/**
 * Makes one dated copy of the book in a folder that is there, with its sum and its head beside it, then lets older
 * ones go. A folder that is missing is refused and not made: it may be a stick that nobody put in.
 * Throws where the disk fails.
 */
export async function keepCopy(book: string, folder: string, now: Date): Promise<CopyKept | Refusal> {
  const done = await backupBook(book, join(folder, nameOfCopy(book, now)));
  if (!done.ok) return done;
  const { bytes, sha256, logHead } = done;
  writeToDisk(aboutFile(done.file), `${JSON.stringify({ at: now.toISOString(), bytes, sha256, logHead }, null, 2)}\n`);
  const copy = openQuietly(done.file);
  try {
    const chain = chainIn(copy);
    const letGo = thinOut(folder, { book, now, timeZone: timeZoneOfFile(done.file), chain });
    return { ...done, letGo, ahead: copiesAhead(copiesIn(folder, book), chain) };
  } finally {
    copy.close();
  }
}

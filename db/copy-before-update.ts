import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type Database from 'better-sqlite3';
import { checksumFile, checksumLine } from './checksum.ts';
import { UpdateFailed } from './faults.ts';
import { removeCopy, syncFolderOf, syncToDisk, writeToDisk } from './save-copy.ts';

/**
 * Copies a book of an older version to a file beside it before its tables are changed, with its SHA-256. Gives the
 * copy's path. It waits for the disk, because nothing may be changed before the copy is there.
 * @throws UpdateFailed where no copy could be made.
 */
export function copyBeforeUpdate(sqlite: Database.Database, file: string, applied: number): string {
  const copy = freeName(file, applied);
  try {
    sqlite.prepare('VACUUM INTO ?').run(copy);
    syncToDisk(copy);
    const sum = createHash('sha256').update(readFileSync(copy)).digest('hex');
    writeToDisk(checksumFile(copy), checksumLine(sum, copy));
    syncFolderOf(copy);
    return copy;
  } catch (fault) {
    tidyAway(copy);
    const why = fault instanceof Error ? fault.message : String(fault);
    throw new UpdateFailed(
      `${file} was written by an older Peltry, and no backup could be made before bringing it up to date (${why}). Nothing was changed. Make room beside it, and start again.`,
    );
  }
}

/** Such as `lantern-before-update-4.book`: four updates were in it. An earlier try keeps its copy. */
function freeName(file: string, applied: number): string {
  const stem = join(dirname(file), `${basename(file).replace(/\.book$/, '')}-before-update-${applied}`);
  let name = `${stem}.book`;
  for (let number = 2; existsSync(name); number += 1) name = `${stem}-${number}.book`;
  return name;
}

/** What cannot even be taken away must not hide why it could not be made. */
function tidyAway(copy: string): void {
  try {
    removeCopy(copy);
  } catch {
    // The first fault is the one to tell.
  }
}

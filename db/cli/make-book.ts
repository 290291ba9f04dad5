import { randomBytes } from 'node:crypto';
import { renameSync } from 'node:fs';
import { accept, type Result } from '#lib/result.ts';
import { openBook } from '../open.ts';
import { decideNewFile, removeCopy, syncFolderOf } from '../save-copy.ts';

/**
 * Makes an empty book, never over another file. It gets its name only when it is whole, so that a process that is
 * killed while making it leaves no half a book behind. Throws where the disk fails.
 */
export function makeBook(file: string): Result<null> {
  const free = decideNewFile(file);
  if (!free.ok) return free;
  const draft = `${file}.${randomBytes(4).toString('hex')}.partial`;
  try {
    openBook(draft, { create: true }).close();
    renameSync(draft, file);
    syncFolderOf(file);
    return accept(null);
  } finally {
    removeCopy(draft);
  }
}

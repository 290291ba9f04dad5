import 'server-only';
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { copyFolders } from '#app/backups/program.ts';
import { rescueCopy } from '#db/book/copies.ts';
import type { Book } from '#db/book/open.ts';
import { type Trouble, troubleOfMoved } from '#db/book/trouble.ts';
import { ring, serverState } from './state.ts';

/**
 * Stops writing where the book's files are not those that were opened any more, and copies what is open to a place
 * where it stays. Gives what is the matter then.
 */
export function lookAtFile(): Trouble | null {
  const here = serverState();
  const { book, watch, trouble } = here;
  const happened = watch?.() ?? null;
  if (!book || happened === null) return null;
  if (trouble?.kind === 'moved') return trouble;
  here.trouble = troubleOfMoved(happened);
  ring();
  void rescue(book, happened);
  return here.trouble;
}

async function rescue(book: Book, happened: string): Promise<void> {
  const found = await intoOneOf([...copyFolders(book.file), dirname(book.file)], book);
  const here = serverState();
  if (here.trouble?.kind === 'moved' && here.book === book) here.trouble = troubleOfMoved(happened, found);
  console.error(happened, 'file' in found ? `All of the book was copied to ${found.file}.` : found.why);
}

/** The first folder that takes the copy: one of them may have gone with the book, or may be full. */
async function intoOneOf(folders: readonly string[], book: Book): Promise<{ file: string } | { why: string }> {
  const whys: string[] = [];
  for (const [at, folder] of folders.entries()) {
    try {
      if (at === 0) mkdirSync(folder, { recursive: true });
      const done = await rescueCopy(book, folder, new Date());
      if (done.ok) return { file: done.file };
      whys.push(done.message);
    } catch (fault) {
      whys.push(`${folder}: ${fault instanceof Error ? fault.message : String(fault)}.`);
    }
  }
  return { why: whys.join(' ') };
}

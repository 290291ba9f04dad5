import 'server-only';
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { bookProgram, copyFolders } from '#app/backups/program.ts';
import type { BackupDone } from '#db/book/backup.ts';
import { noteAbout, type Proof, rescueCopy } from '#db/book/copies.ts';
import { endingFor } from '#db/book/lock.ts';
import type { Book } from '#db/book/open.ts';
import { type Trouble, troubleOfMoved } from '#db/book/trouble.ts';
import type { VerifyReport } from '#db/verify/report.ts';
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
  const now = new Date();
  // Where copies are locked, this one could not be replayed by a process of its own.
  const places = [...copyFolders(book.file), dirname(book.file)];
  const found = await intoOneOf(
    places.filter((folder) => endingFor(book.file, folder) === '.book'),
    book,
    now,
  );
  const tell = (copy: Parameters<typeof troubleOfMoved>[1]) => {
    const here = serverState();
    if (here.trouble?.kind === 'moved' && here.book === book) here.trouble = troubleOfMoved(happened, copy);
    ring();
  };
  if ('why' in found) {
    tell(found);
    return console.error(happened, found.why);
  }
  tell(found);
  console.error(happened, `All of the book was copied to ${found.file}.`);
  const proof = await proofOf(found.file);
  noteAbout(found, now, proof);
  tell({ ...found, proof });
  console.error(proof.ok ? `Its log was replayed: ${proof.words}` : `It is not whole: ${proof.words}`);
}

/** Replays the log of the copy in a process of its own: the pages are still read meanwhile. */
async function proofOf(file: string): Promise<Proof> {
  try {
    const { said } = await bookProgram(['verify', '--book', file]);
    const { ok, problems, replay } = JSON.parse(said) as VerifyReport;
    return { ok, words: ok ? replay.message : problems.join(' ') };
  } catch (fault) {
    return { ok: false, words: `It could not be replayed: ${messageOf(fault)}.` };
  }
}

/** The first folder that takes the copy: one of them may have gone with the book, or may be full. */
async function intoOneOf(folders: readonly string[], book: Book, now: Date): Promise<BackupDone | { why: string }> {
  const whys: string[] = [];
  for (const [at, folder] of folders.entries()) {
    try {
      if (at === 0) mkdirSync(folder, { recursive: true });
      const done = await rescueCopy(book, folder, now);
      if (done.ok) return done;
      whys.push(done.message);
    } catch (fault) {
      whys.push(`${folder}: ${messageOf(fault)}.`);
    }
  }
  return { why: whys.join(' ') };
}

const messageOf = (fault: unknown) => (fault instanceof Error ? fault.message : String(fault));

/** Whether the files that a book was opened from are still the ones at its path: an open file can be moved or deleted. */
import { statSync } from 'node:fs';

/** What is the matter with the book's files, in a sentence; null where they are those that were opened. */
export type Watch = () => string | null;

/**
 * Notes which files the book has open now, and gives the function that looks again. It asks the disk twice, which takes
 * 5 microseconds, so that each entry can afford it. The newest entries are in the write-ahead log: it is watched too.
 */
export function watchFile(file: string): Watch {
  const watched = [file, `${file}-wal`].map((name) => ({ name, opened: identityOf(name) }));
  return () => {
    for (const { name, opened } of watched) {
      const now = identityOf(name);
      if (now === opened) continue;
      return now === null
        ? `While the program was running, the file ${name} was moved or deleted.`
        : `While the program was running, another file was put in the place of ${name}.`;
    }
    return null;
  };
}

function identityOf(name: string): string | null {
  const found = statSync(name, { throwIfNoEntry: false });
  return found ? `${found.dev} ${found.ino}` : null;
}

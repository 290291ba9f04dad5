/** Imports an exchange folder: reads it, tells everything that is wrong with it, and gives it to the door. */
import { randomUUID } from 'node:crypto';
import { submit } from '#db/book/door.ts';
import type { Book } from '#db/book/open.ts';
import { checkAgainstBook, inputOfFolder } from './against-book.ts';
import { checkFolder } from './check-folder.ts';
import { type Problem, refusalLines, sortProblems } from './problem.ts';
import type { FolderRead } from './read-folder.ts';
import type { Imported } from './save-folder.ts';

export interface ImportDone extends Imported {
  readonly ok: true;
  readonly line: number;
}

export interface ImportRefused {
  readonly ok: false;
  /** One problem a line, as the exchange has it: `file:line column: what to do`. */
  readonly problems: readonly string[];
}

/** Everything wrong with a folder that was read, by itself and against the book; `book` is null where there is none yet. */
export function problemsOf({ raw, problems }: FolderRead, book: Book | null): Problem[] {
  const folder = checkFolder(raw);
  const against = book === null ? [] : checkAgainstBook(book, raw, folder);
  return sortProblems([...problems, ...folder.problems, ...against]);
}

/** Gives a folder that was read to the book. The folder's form must be without problems. `at` is ISO 8601, UTC. */
export function importFolder(
  book: Book,
  { raw }: FolderRead,
  by: { readonly worker: string; readonly at: string },
): ImportDone | ImportRefused {
  const envelope = { command: 'sale.import', station: 'office', ...by, key: randomUUID() } as const;
  const answer = submit(book, { ...envelope, input: inputOfFolder(raw) });
  if (!answer.ok) return { ok: false, problems: refusalLines(answer) };
  return { ok: true, line: answer.line, ...answer.value };
}

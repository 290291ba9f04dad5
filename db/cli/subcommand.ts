/** The frame of every subcommand: what it is given, and how it answers. */
import { randomBytes } from 'node:crypto';
import { renameSync } from 'node:fs';
import { decideNewFile, removeCopy, syncFolderOf } from '#db/book/files.ts';
import { type Book, openBook } from '#db/book/open.ts';
import { assertLeads } from '#db/follow/deposed.ts';
import type { PrintedHead } from '#db/verify/heads.ts';
import { accept, type Result } from '#lib/result/result.ts';

export interface Given {
  /** The book's file, as an absolute path. */
  readonly book: string;
  /** The folder or file that the subcommand is about, as an absolute path, or an address or a name; empty where it takes none. */
  readonly path: string;
  /** The sale's name or id, where one was named. */
  readonly sale: string | undefined;
  /** What papers say of the log, with `--head`. */
  readonly heads: readonly PrintedHead[];
  /** The code by which a second laptop is paired, where one was given. */
  readonly code: string | undefined;
  /** Six words, where they were given: of the first laptop's authority, or those that unseal it. */
  readonly words: string | undefined;
  /** Whether the hall is served as soon as the work is done. */
  readonly hall: boolean;
}

/** Where a subcommand says what it did, and what is wrong: one line at a time. */
export interface Voice {
  say(line: string): void;
  warn(line: string): void;
  /** Asks for a passphrase; on the terminal where nothing else is said. */
  ask?(question: string): Promise<string>;
}

/** 0: well. 1: something is wrong, and the book is as it was. 2: the command was not understood. */
export type ExitCode = 0 | 1 | 2;

export interface Subcommand {
  readonly name: string;
  /** What it takes besides the book, as the usage shows it. */
  readonly takes?: '<folder>' | '<file>' | '<address>' | '<name>';
  readonly takesSale?: boolean;
  readonly takesHead?: boolean;
  readonly takesCode?: boolean;
  readonly takesWords?: boolean;
  readonly takesHall?: boolean;
  readonly says: string;
  run(given: Given, voice: Voice): ExitCode | Promise<ExitCode>;
}

/** Says what is wrong, and gives the exit code for it. */
export function failed(voice: Voice, ...messages: readonly string[]): 1 {
  for (const message of messages) voice.warn(message);
  return 1;
}

/** Opens the book for the time of the work. */
export async function withBook<T>(file: string, work: (book: Book) => T | Promise<T>): Promise<T> {
  const book = openBook(file);
  try {
    return await work(book);
  } finally {
    book.close();
  }
}

/** The same to write into it. @throws DeposedBook where another laptop leads it. */
export function withLeadingBook<T>(file: string, work: (book: Book) => T | Promise<T>): Promise<T> {
  return withBook(file, (book) => {
    assertLeads(book);
    return work(book);
  });
}

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

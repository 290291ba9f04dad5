import 'server-only';
import { redirect } from 'next/navigation';
import { connection } from 'next/server';
import { cache } from 'react';
import { lookAtFile } from '#app/server/look-at-file.ts';
import { openServerBook } from '#app/server/open-book.ts';
import { serverState } from '#app/server/state.ts';
import { newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';

/** The book of this process, or nothing where it cannot be opened: `troubleNow` says why. */
export async function bookOrNone(): Promise<Book | undefined> {
  // Never while the application is built, which imports every module.
  await connection();
  const { book } = serverState();
  if (book) lookAtFile();
  return book ?? openServerBook();
}

/** The one open book of this process. Where there is none, whoever asks is shown what is the matter instead. */
export async function theBook(): Promise<Book> {
  return (await bookOrNone()) ?? redirect('/trouble');
}

/**
 * The log line at which a page is drawn: the same for all its parts. The context of a page asks for it before anything
 * is read, so that an entry made meanwhile is a later line, and the page is read once more.
 */
export const lineDrawnAt = cache(async (): Promise<number> => newestLine(await theBook()));

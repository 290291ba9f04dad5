import 'server-only';
import { redirect } from 'next/navigation';
import { connection } from 'next/server';
import { newestLine } from '#db/log.ts';
import type { Book } from '#db/open.ts';
import type { Trouble } from '#db/trouble.ts';
import { house } from './house.ts';
import { looked } from './look.ts';
import { openHouse } from './open-house.ts';
import type { Heard } from './ui/live-line.ts';

/** The book of this process, or nothing where it cannot be opened: {@link troubleNow} says why. */
export async function bookOrNone(): Promise<Book | undefined> {
  // Never while the application is built, which imports every module.
  await connection();
  await looked();
  return house().book ?? openHouse();
}

/** The one open book of this process. Where there is none, whoever asks is shown what is the matter instead. */
export async function theBook(): Promise<Book> {
  return (await bookOrNone()) ?? redirect('/trouble');
}

/** The book where it is open already, for what stands on every page. */
export function bookNow(): Book | undefined {
  return house().book;
}

export function troubleNow(): Trouble | null {
  return house().trouble;
}

/** What every screen is told now. Of a disk that cannot even be read the line is 0. */
export function heardNow(): Heard {
  const { book, trouble } = house();
  return { line: book ? lineOf(book) : 0, stopped: trouble !== null };
}

function lineOf(book: Book): number {
  try {
    return newestLine(book);
  } catch {
    return 0;
  }
}

/** Tells all who listen; asked once for all of them, because a full hall is some hundred. */
export function ring(): void {
  house().bell.emit('line', heardNow());
}

/** Calls back whenever the log has grown, or writing was stopped; gives the function that stops it. */
export function onLine(listener: (heard: Heard) => void): () => void {
  const { bell } = house();
  bell.on('line', listener);
  return () => bell.off('line', listener);
}

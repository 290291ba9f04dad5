import 'server-only';
import { redirect } from 'next/navigation';
import { connection } from 'next/server';
import type { Book } from '#db/open.ts';
import { house } from './house.ts';
import { openHouse } from './open-house.ts';

/** The book of this process, or nothing where it cannot be opened: `troubleNow` says why. */
export async function bookOrNone(): Promise<Book | undefined> {
  // Never while the application is built, which imports every module.
  await connection();
  return house().book ?? openHouse();
}

/** The one open book of this process. Where there is none, whoever asks is shown what is the matter instead. */
export async function theBook(): Promise<Book> {
  return (await bookOrNone()) ?? redirect('/trouble');
}

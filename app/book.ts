import 'server-only';
import { EventEmitter } from 'node:events';
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { connection } from 'next/server';
import { type Answer, type Envelope, submit } from '#db/door.ts';
import { type Book, openBook } from '#db/open.ts';

/**
 * The one open book of this process, and the bell that rings when its log grows.
 * Pages and route handlers are given separate copies of a module, so both live on `globalThis`.
 */
interface House {
  book: Book | undefined;
  readonly bell: EventEmitter;
}

const place = globalThis as typeof globalThis & { peltryHouse?: House };

function house(): House {
  place.peltryHouse ??= { book: undefined, bell: new EventEmitter().setMaxListeners(0) };
  return place.peltryHouse;
}

/** Opens the book at the first request; never while the application is built, which imports every module. */
export async function theBook(): Promise<Book> {
  await connection();
  const here = house();
  here.book ??= openOrMake(process.env.PELTRY_BOOK ?? 'data/peltry.book');
  return here.book;
}

function openOrMake(file: string): Book {
  mkdirSync(dirname(file), { recursive: true });
  return openBook(file, { create: true });
}

/** Gives a command to the book and rings the bell when it was accepted. */
export function give(book: Book, envelope: Envelope): Answer {
  const answer = submit(book, envelope);
  if (answer.ok) house().bell.emit('line', answer.line);
  return answer;
}

/** Calls back with the newest log line whenever it grows; gives the function that stops it. */
export function onLine(listener: (line: number) => void): () => void {
  const { bell } = house();
  bell.on('line', listener);
  return () => bell.off('line', listener);
}

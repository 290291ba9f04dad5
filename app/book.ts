import 'server-only';
import { redirect } from 'next/navigation';
import { connection } from 'next/server';
import { type Answer, type Envelope, submit } from '#db/door.ts';
import { newestLine } from '#db/log.ts';
import type { Book } from '#db/open.ts';
import { type Trouble, troubleOfWriting } from '#db/trouble.ts';
import { copySoon } from './backups/schedule.ts';
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

/** The answer to an entry that was not taken because nothing is written: it stays in the browser and comes again. */
export interface WritingStopped {
  readonly stopped: Trouble;
}

/**
 * Gives a command to the book and rings the bell when it was accepted. Nothing is taken once the disk has failed, and
 * from then on until a person has said that it is mended: after a full disk a smaller entry might go in where a larger
 * one did not, and nobody could say what is missing.
 */
export function give(book: Book, envelope: Envelope): Answer | WritingStopped {
  const here = house();
  if (here.trouble) return { stopped: here.trouble };
  const answer = submitOrStop(book, envelope);
  if ('stopped' in answer || !answer.ok) return answer;
  ring();
  if (envelope.command === 'sale.stage') copySoon();
  return answer;
}

function submitOrStop(book: Book, envelope: Envelope): Answer | WritingStopped {
  const here = house();
  try {
    return submit(book, envelope);
  } catch (fault) {
    const trouble = troubleOfWriting(fault);
    if (!trouble) throw fault;
    here.trouble = trouble;
    ring();
    return { stopped: trouble };
  }
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

/** Asked once for all who listen: a full hall is some hundred of them. */
function ring(): void {
  house().bell.emit('line', heardNow());
}

/** Calls back whenever the log has grown, or writing was stopped; gives the function that stops it. */
export function onLine(listener: (heard: Heard) => void): () => void {
  const { bell } = house();
  bell.on('line', listener);
  return () => bell.off('line', listener);
}

import { accept, type Result, refuse } from '#lib/result.ts';
import { hashAt, logHead } from '../log.ts';
import type { Book } from '../open.ts';
import { giveAgain } from '../replay.ts';
import { type LinesMessage, redactionsOf } from './lines.ts';

/**
 * Gives the lines of the first laptop to the second one's own book, each through the door, so that each proves itself
 * as it comes. Gives how many were taken.
 * Refused where the two books have parted, with everything up to there kept.
 */
export function takeLines(book: Book, message: LinesMessage): Result<number> {
  const head = logHead(book);
  if (message.after !== head.hash) return refuse('conflict', parted(head.seq, message.head));
  const redactions = redactionsOf(message);
  for (const [taken, row] of message.lines.entries()) {
    const wrong = giveAgain(book, row, redactions);
    if (wrong !== null) return refuse('conflict', `After ${taken} lines: ${wrong}`);
    if (hashAt(book, row.seq) !== row.hash) {
      return refuse('conflict', `Line ${row.seq} is sealed with another hash here: the two books have parted.`);
    }
  }
  return accept(message.lines.length);
}

function parted(own: number, theirs: number): string {
  if (theirs < own) {
    return `This book has ${own} lines and the first one ${theirs}: this one is ahead. Serve this one, or follow with a new file.`;
  }
  return `The two books have parted at or before line ${own}. Keep both, and follow with a new file.`;
}

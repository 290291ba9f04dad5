import 'server-only';
import { hashAt, headInShort, idOfBook, logHead, newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { type Trouble, troubleOfLoss } from '#db/book/trouble.ts';
import { cookieIn } from './connection.ts';
import { serverState } from './state.ts';

/**
 * Each browser remembers the head of the log as it was when its last entry was saved, in a cookie for each book. No
 * script reads it, so it costs the pages no code; and the server alone can tell whether its book has that line.
 */
const nameFor = (id: string) => `peltry-head-${id}`;
const SECONDS = 400 * 86_400;

/** The cookie by which a browser remembers the head of this book; undefined of a book without a line. */
export function headCookie(book: Book): string | undefined {
  const id = idOfBook(book);
  const head = headInShort(logHead(book));
  return id && `${nameFor(id)}=${head}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${SECONDS}`;
}

/**
 * What is the matter where the browser that asks was told of an entry that the open book does not have; null where it
 * has it, or where the office has confirmed the loss since the program was started.
 */
export function lossFor(book: Book, headers: Pick<Headers, 'get'>): Trouble | null {
  const id = idOfBook(book);
  if (!id || serverState().lossConfirmed === id) return null;
  const seen = /^(\d{1,15}):([0-9a-f]{20})$/.exec(cookieIn(headers, nameFor(id)) ?? '');
  if (!seen) return null;
  const line = Number.parseInt(seen[1] ?? '', 10);
  return hashAt(book, line)?.startsWith(seen[2] ?? '') ? null : troubleOfLoss({ line, ends: newestLine(book) });
}

/** The office knows of the loss: entries are taken again, and each browser remembers the head of its next entry. */
export function confirmLoss(book: Book): void {
  serverState().lossConfirmed = idOfBook(book);
}

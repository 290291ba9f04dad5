import 'server-only';
import { hashAt, headInShort, idOfBook, logHead, newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { type Trouble, troubleOfLoss } from '#db/book/trouble.ts';
import { cookieIn } from './connection.ts';
import { serverState } from './state.ts';

/**
 * Each browser remembers the head of the log as it was when its last entry was saved, in a cookie for each book; and in
 * another one the head that it was shown last: an answer to a look may come late, and must not put back the first.
 * No script reads them, so they cost the pages no code; and the server alone can tell whether its book has that line.
 */
const nameFor = (id: string) => `peltry-head-${id}`;
const lookedName = (id: string) => `peltry-look-${id}`;
const SECONDS = 400 * 86_400;

/** The cookie by which a browser remembers the head of this book; undefined of a book without a line. */
export function headCookie(book: Book): string | undefined {
  const id = idOfBook(book);
  return id && cookieFor(nameFor(id), headInShort(logHead(book)));
}

const cookieFor = (name: string, head: string) =>
  `${name}=${head}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${SECONDS}`;

/** Who has signed in or entered something; who only looks at the Board gets no cookie. */
const STAFF = /(^|; *)(__Host-peltry|peltry-plain|peltry-head-[0-9a-f]{20})=/;

/**
 * The cookie by which a browser of the staff remembers the head of what it is shown by this answer. Nothing where it knows
 * it, where the book lacks what it knows, or while something is the matter with the book.
 */
export function lookedCookie(cookies = ''): string | undefined {
  const { book, trouble } = serverState();
  if (!book || trouble || !STAFF.test(cookies)) return undefined;
  try {
    const id = idOfBook(book);
    const head = headInShort(logHead(book));
    const asked = { get: () => cookies };
    if (!id || cookieIn(asked, lookedName(id)) === head || lossFor(book, asked)) return undefined;
    return cookieFor(lookedName(id), head);
  } catch {
    // A book that cannot be read is shown to nobody.
    return undefined;
  }
}

/**
 * What is the matter where the browser that asks was told of an entry, or shown one, that the open book does not have; null
 * where it has it, or where the office has confirmed the loss since the program was started.
 */
export function lossFor(book: Book, headers: Pick<Headers, 'get'>): Trouble | null {
  const id = idOfBook(book);
  if (!id || serverState().lossConfirmed === id) return null;
  for (const name of [nameFor(id), lookedName(id)]) {
    const [, line, hash = ''] = /^(\d{1,15}):([0-9a-f]{20})$/.exec(cookieIn(headers, name) ?? '') ?? [];
    const seen = Number.parseInt(line ?? '', 10);
    if (line && !hashAt(book, seen)?.startsWith(hash)) return troubleOfLoss({ line: seen, ends: newestLine(book) });
  }
  return null;
}

/** The office knows of the loss: entries are taken again, and each browser remembers the head of its next entry. */
export function confirmLoss(book: Book): void {
  serverState().lossConfirmed = idOfBook(book);
}

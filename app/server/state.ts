import 'server-only';
import { EventEmitter } from 'node:events';
import type { Heard } from '#app/ui/watch-live.ts';
import type { Claim } from '#db/book/check-file.ts';
import { headInShort, idOfBook, logHead, newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import type { Trouble } from '#db/book/trouble.ts';
import type { Watch } from '#db/book/watch-file.ts';
import { epochOf } from '#db/follow/epoch.ts';

/**
 * What this process has of the book: the open file, the event emitter for the growth of its log, and what is the matter.
 * The server itself, pages and route handlers have separate copies of a module, so all of it lives on `globalThis`.
 */
export interface ServerState {
  book: Book | undefined;
  claim: Claim | undefined;
  /** Says whether the book's files are still those that were opened to be written. */
  watch: Watch | undefined;
  /** Why nothing is written, until a person says that it is mended; null when all is well. */
  trouble: Trouble | null;
  /** The file's fingerprint when it could not be brought up to date: while it is the same, nobody tries again. */
  failedOn: string | undefined;
  /** The newest entries that were typed on pages from before a take-over, and came in after it. */
  late: readonly LateEntry[];
  /** The book of which the office has confirmed that it lacks what browsers remember. */
  lossConfirmed?: string | undefined;
  readonly bell: EventEmitter;
}

interface LateEntry {
  readonly line: number;
  readonly worker: string;
  readonly station: string;
  /** Milliseconds since 1970. */
  readonly at: number;
}

const place = globalThis as typeof globalThis & { peltryServerState?: ServerState };

export function serverState(): ServerState {
  place.peltryServerState ??= {
    ...{ book: undefined, claim: undefined, watch: undefined, trouble: null, failedOn: undefined, late: [] },
    bell: new EventEmitter().setMaxListeners(0),
  };
  return place.peltryServerState;
}

/** The book where it is open already, for what stands on every page. */
export function bookNow(): Book | undefined {
  return serverState().book;
}

/** Which book is open here, for what was typed elsewhere; empty where there is none, or nothing is in it yet. */
export function bookId(): string {
  const { book } = serverState();
  try {
    return (book && idOfBook(book)) ?? '';
  } catch {
    // A disk that cannot be read says nothing.
    return '';
  }
}

/** What every answer says of the book: its id, its epoch and the head of its log; nothing of a book that has no line. */
export function signsOfBook(): Readonly<Record<string, string>> {
  const { book, trouble } = serverState();
  const id = bookId();
  if (!book || !id) return {};
  try {
    const [epoch, head] = [String(epochOf(book)), headInShort(logHead(book))];
    const deposed = trouble?.kind === 'deposed' && { 'x-peltry-deposed': 'yes' };
    return { 'x-peltry-book': id, 'x-peltry-epoch': epoch, 'x-peltry-head': head, ...deposed };
  } catch {
    return {};
  }
}

const LATE_KEPT = 200;

export function noteLate(entry: Omit<LateEntry, 'at'>): void {
  const here = serverState();
  here.late = [...here.late, { ...entry, at: Date.now() }].slice(-LATE_KEPT);
}

/** The book with its epoch, as a page says for what it was drawn; empty where there is no line. */
export function pageName(): string {
  const { 'x-peltry-book': id, 'x-peltry-epoch': epoch } = signsOfBook();
  return id ? `${id}:${epoch}` : '';
}

export function troubleNow(): Trouble | null {
  return serverState().trouble;
}

/** What every screen is told now. Of a disk that cannot even be read the line is 0. */
export function heardNow(): Heard {
  const { book, trouble } = serverState();
  const stopped = trouble !== null;
  try {
    return { line: book ? newestLine(book) : 0, stopped };
  } catch {
    return { line: 0, stopped };
  }
}

/** Tells all who listen; asked once for all of them, because a full hall is some hundred. */
export function ring(): void {
  serverState().bell.emit('line', heardNow());
}

/** Calls back whenever the log has grown, or writing was stopped; gives the function that stops it. */
export function onLine(listener: (heard: Heard) => void): () => void {
  const { bell } = serverState();
  bell.on('line', listener);
  return () => bell.off('line', listener);
}

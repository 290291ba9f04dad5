/** The one act by which a second laptop begins to lead, and how a restored backup begins to. */

import { randomBytes } from 'node:crypto';
import { hostname } from 'node:os';
import { submit } from '#db/book/door.ts';
import { logHead, newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { openStore } from '#db/sign-in/store.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { deposedBy } from './deposed.ts';
import { follow } from './follow.ts';
import { followedFrom } from './followed.ts';
import { leadOf, sealLead } from './lead.ts';
import { type Told, tellLead } from './tell.ts';

interface Begun {
  readonly epoch: number;
  readonly line: number;
}

export interface Beginning {
  readonly kind: 'takeover' | 'restore';
  readonly reason: string;
  readonly told?: string;
  readonly now: Date;
}

/** Writes the line with which the next epoch begins; refused where the book has no line yet, and so is no book of anybody. */
export function beginEpoch(book: Book, { kind, reason, told = '', now }: Beginning): Result<Begun> {
  if (newestLine(book) === 0) return refuse('missing', 'This book is empty: there is nothing to take over.');
  const above = deposedBy(book)?.epoch ?? 0;
  const input = { kind, laptop: hostname().slice(0, 80) || 'a laptop', told, above, reason };
  const sender = { worker: 'command line', station: 'office', key: randomBytes(16).toString('hex') } as const;
  const done = submit(book, { ...sender, command: 'book.takeover', at: now.toISOString(), input });
  return done.ok ? accept({ epoch: done.value.epoch, line: done.line }) : done;
}

interface TakenOver extends Begun {
  /** How many lines the first laptop still had for this one. */
  readonly fetched: number;
  /** Why nothing more could be fetched from it; empty where all was. */
  readonly silence: string;
  /** Its address, empty where this book never followed; and what it made of the take-over. */
  readonly first: string;
  readonly told: Told;
}

/** Fetches what the first laptop still answers, begins the next epoch, and tells it. Of the book itself the proof comes before. */
export async function takeOver(book: Book, key: string | undefined, now: Date): Promise<Result<TakenOver>> {
  const first = followedFrom(book.file);
  const before = logHead(book).seq;
  const silence = first && key ? await lastLines(book, { address: first, key }) : NOBODY_FOLLOWED;
  const reason = silence === '' ? 'The first laptop had nothing more.' : silence;
  const fetched = logHead(book).seq - before;
  const begun = beginEpoch(book, { kind: 'takeover', told: first, reason, now });
  if (!begun.ok) return begun;
  const lead = leadOf(book);
  const told = first && lead ? await tellLead(first, sealLead(book, lead)) : 'silent';
  return accept({ ...begun.value, fetched, silence, first, told });
}

const NOBODY_FOLLOWED = 'This book has not followed another laptop.';
const FETCH_WITHIN_MS = 15_000;

/** Gives why the first laptop gave no more lines, in its own sentence; empty where it has no more. */
async function lastLines(book: Book, first: { readonly address: string; readonly key: string }): Promise<string> {
  const stop = AbortSignal.timeout(FETCH_WITHIN_MS);
  const store = openStore(book.file);
  try {
    const done = await follow({ book, store }, { ...first, stop, once: true, say: () => undefined });
    return done.ok ? '' : done.message;
  } finally {
    store.close();
  }
}

/** Follows the book of a first laptop, until it is told to stop. */
import { X509Certificate } from 'node:crypto';
import { hostname } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import * as z from 'zod';
import { hashAt, logHead } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { giveAgain } from '#db/book/replay.ts';
import { takeAuthority } from '#db/certificate/keep.ts';
import { certificateOf, wordsOf } from '#db/certificate/names.ts';
import { noteRecoveryWords } from '#db/certificate/sealed.ts';
import { takeHashes } from '#db/sign-in/passphrases.ts';
import type { SignIns } from '#db/sign-in/since.ts';
import { decideFollowAddress, ledElsewhere } from '#lib/network/hosts.ts';
import { wordsTyped } from '#lib/network/words.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { type Answered, askLaptop, believed, noAnswer, printable } from './ask.ts';
import { pairInput } from './laptops.ts';
import { LEAD_COOKIE, leadOf, sealLead } from './lead.ts';
import { type LinesMessage, linesMessage, redactionsOf } from './lines.ts';

export interface Following {
  /** `https://192.168.1.10:3443` of the first laptop. */
  readonly address: string;
  readonly key: string;
  readonly stop: AbortSignal;
  /** Stops once it has caught up. */
  readonly once: boolean;
  /** Authorities to believe while none lies beside the book, as PEM. */
  readonly ca?: readonly string[] | undefined;
  /** Called with what happened, in a sentence. */
  say(words: string): void;
}

const AGAIN_MS = 1000;
const AUTHORITY_TAKEN = 'It has the authority of the first laptop: devices that trust the one trust this one too.';
const ANSWER_WITHIN_MS = 40_000;

/**
 * Gives how many lines were taken; refused where the first laptop refuses, or the two books have parted. What the
 * workers need to sign in goes beside the book, for the moment when this laptop takes over.
 */
export async function follow({ book, store }: SignIns, following: Following): Promise<Result<number>> {
  const { say, stop, once } = following;
  const address = decideFollowAddress(following.address);
  if (!address.ok) return address;
  let taken = 0;
  let silent = '';
  while (!stop.aborted) {
    const message = await ask(following, { address: address.value, book });
    if (!message.ok) {
      if (message.code !== 'missing' || once) return message;
      if (silent !== message.message) say(`${message.message} What it has so far is kept; asking again every second.`);
      silent = message.message;
      await sleep(AGAIN_MS, undefined, { signal: stop }).catch(() => {});
      continue;
    }
    if (silent) say('The first laptop answers again.');
    silent = '';
    const { authority, head } = message.value;
    if (authority) {
      const had = takeAuthority(book.file, authority);
      if (!had.ok) return had;
      if (authority.words) noteRecoveryWords(book.file, authority.words);
      if (had.value === 'taken') say(AUTHORITY_TAKEN);
    }
    const behind = head - logHead(book).seq;
    if (behind > message.value.lines.length) say(`Behind by ${behind} entries; they are being fetched.`);
    const done = takeLines(book, message.value);
    if (!done.ok) return done;
    takeHashes(store, message.value.passphrases);
    taken += done.value;
    const caughtUp = logHead(book).seq >= head;
    if (done.value > 0 && caughtUp) say(`Caught up at line ${logHead(book).seq} ${logHead(book).hash}.`);
    if (once && caughtUp) break;
  }
  return accept(taken);
}

/** Whom to believe: the authority of this book's folder, or one whose words were compared. */
interface Trust {
  readonly ca?: readonly string[] | undefined;
}

/**
 * Shows the first laptop a code and gives the key that it answers. The code, as the key later, goes to an encrypted
 * address or to this machine only.
 */
export async function pairWith(
  typed: string,
  said: z.input<typeof pairInput>,
  { ca }: Trust = {},
): Promise<Result<string>> {
  const address = decideFollowAddress(typed);
  if (!address.ok) return address;
  const url = new URL('/api/follow/pair', address.value.origin);
  try {
    const answer = await askLaptop(url, {
      ...{ method: 'POST', signal: AbortSignal.timeout(ANSWER_WITHIN_MS), ca },
      headers: { 'content-type': 'application/json', 'x-station': 'sign-in', origin: url.origin },
      body: JSON.stringify(pairInput.parse(said)),
    });
    if (answer.status >= 300 && answer.status < 400) return ledElsewhere();
    const { key, detail } = saidIn(answer);
    return key ? accept(key) : refuse('not_allowed', detail ?? `The first laptop answers ${answer.status}.`);
  } catch (fault) {
    return noAnswer(fault, url);
  }
}

/** The authority at an address, as PEM, if its six words are those that somebody read at the first laptop's Office. */
export async function authorityByWords(typed: string, words: string): Promise<Result<string>> {
  const address = decideFollowAddress(typed);
  if (!address.ok) return address;
  const url = new URL('/api/authority', address.value.origin);
  try {
    const answer = await askLaptop(url, { headers: {}, signal: AbortSignal.timeout(ANSWER_WITHIN_MS), unproved: true });
    if (answer.status === 200 && wordsOf(new X509Certificate(answer.text)) === wordsTyped(words))
      return accept(answer.text);
    return refuse(
      'not_allowed',
      'These are not the words of the laptop at this address. Read all six again at Office, Network; if they are right, another machine answers here: do not go on.',
    );
  } catch (fault) {
    return noAnswer(fault, url);
  }
}

/** Asks for the lines behind `seq`; `missing` where no answer came. */
async function ask(
  { key, stop, once, ca }: Following,
  { address, book }: { readonly address: URL; readonly book: Book },
): Promise<Result<LinesMessage>> {
  const own = certificateOf(book.file, 'authority')?.fingerprint256 ?? 'none';
  const said = { after: String(logHead(book).seq), laptop: hostname(), authority: own, ...(once && { wait: 'no' }) };
  const url = new URL(`/api/follow?${new URLSearchParams(said)}`, address);
  try {
    const answer = await askLaptop(url, {
      headers: { authorization: `Bearer ${key}`, ...leadCarried(book) },
      signal: AbortSignal.any([stop, AbortSignal.timeout(ANSWER_WITHIN_MS)]),
      ca: believed(book.file) ?? ca,
    });
    if (answer.headers['x-peltry-deposed']) return refuse('not_allowed', LEADS_NO_MORE);
    const { status } = answer;
    if (status >= 300 && status < 400) return ledElsewhere();
    if (status === 200) return accept(linesMessage.parse(JSON.parse(answer.text)));
    const { detail } = saidIn(answer);
    if (status === 401 || status === 421) return refuse('not_allowed', detail ?? NOT_KNOWN);
    return refuse('missing', `The first laptop answers ${status}${detail ? `: ${detail}` : '.'}`);
  } catch (fault) {
    if (fault instanceof z.ZodError || fault instanceof SyntaxError) return refuse('conflict', OTHER_VERSION);
    return noAnswer(fault, url);
  }
}

const LEADS_NO_MORE = 'The laptop at this address does not lead the book any more: follow the one that took over.';
const NOT_KNOWN = 'The first laptop does not know this one any more. Pair it anew: Office, Doors shows a code.';
const OTHER_VERSION = 'What the first laptop answers is not understood here: put the same version of Peltry on both.';

/** The key or the sentence in an answer, whatever it is. */
function saidIn({ text }: Answered): { readonly key?: string | undefined; readonly detail?: string | undefined } {
  try {
    const { key, detail } = JSON.parse(text) as { key?: unknown; detail?: unknown };
    return {
      key: typeof key === 'string' ? key : undefined,
      detail: typeof detail === 'string' && detail !== '' ? printable(detail) : undefined,
    };
  } catch {
    return {};
  }
}

/** What this book knows of who leads it: a first laptop that was deposed hears it here at the latest. */
function leadCarried(book: Book): Record<string, string> {
  const lead = leadOf(book);
  return lead ? { cookie: `${LEAD_COOKIE}=${sealLead(book, lead)}` } : {};
}

/**
 * Submits the lines of the first laptop to the second one's own book, so that each proves itself as it comes, and gives
 * how many were taken. Refused where the two books have parted; everything up to there stays.
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

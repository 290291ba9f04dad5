/** Follows the book of a first laptop, until it is told to stop. */
import { hostname } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import type * as z from 'zod';
import { hashAt, logHead } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { giveAgain } from '#db/book/replay.ts';
import { takeHashes } from '#db/sign-in/passphrases.ts';
import type { SignIns } from '#db/sign-in/since.ts';
import { decideFollowAddress, ledElsewhere } from '#lib/network/hosts.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
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
  /** Called with what happened, in a sentence. */
  say(words: string): void;
}

const AGAIN_MS = 1000;
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
  let silent = false;
  while (!stop.aborted) {
    const message = await ask(following, {
      address: address.value,
      seq: logHead(book).seq,
      carried: leadCarried(book),
    });
    if (!message.ok) {
      if (message.code !== 'missing' || once) return message;
      if (!silent) say(`${message.message} What it has so far is kept; asking again every second.`);
      silent = true;
      await sleep(AGAIN_MS, undefined, { signal: stop }).catch(() => {});
      continue;
    }
    if (silent) say('The first laptop answers again.');
    silent = false;
    const done = takeLines(book, message.value);
    if (!done.ok) return done;
    takeHashes(store, message.value.passphrases);
    taken += done.value;
    const caughtUp = logHead(book).seq >= message.value.head;
    if (done.value > 0 && caughtUp) say(`Caught up at line ${logHead(book).seq} ${logHead(book).hash}.`);
    if (once && caughtUp) break;
  }
  return accept(taken);
}

/**
 * Shows the first laptop a code and gives the key that it answers. The code, as the key later, goes to an encrypted
 * address or to this machine only.
 */
export async function pairWith(typed: string, said: z.input<typeof pairInput>): Promise<Result<string>> {
  const address = decideFollowAddress(typed);
  if (!address.ok) return address;
  const { origin } = address.value;
  try {
    const answer = await fetch(new URL('/api/follow/pair', origin), {
      ...{ method: 'POST', redirect: 'manual', signal: AbortSignal.timeout(ANSWER_WITHIN_MS) },
      headers: { 'content-type': 'application/json', 'x-station': 'sign-in', origin },
      body: JSON.stringify(pairInput.parse(said)),
    });
    if (answer.status >= 300 && answer.status < 400) return ledElsewhere();
    const { key, detail } = (await answer.json()) as { readonly key?: string; readonly detail?: string };
    return key ? accept(key) : refuse('not_allowed', detail ?? `The first laptop answers ${answer.status}.`);
  } catch (fault) {
    return silence(fault);
  }
}

/** Asks for the lines behind `seq`; `missing` where no answer came. */
async function ask(
  { key, stop, once }: Following,
  { address, seq, carried }: { readonly address: URL; readonly seq: number; readonly carried: Record<string, string> },
): Promise<Result<LinesMessage>> {
  try {
    const url = new URL(
      `/api/follow?after=${seq}&laptop=${encodeURIComponent(hostname())}${once ? '&wait=no' : ''}`,
      address,
    );
    const signal = AbortSignal.any([stop, AbortSignal.timeout(ANSWER_WITHIN_MS)]);
    const answer = await fetch(url, {
      headers: { authorization: `Bearer ${key}`, ...carried },
      signal,
      redirect: 'manual',
    });
    if (answer.headers.has('x-peltry-deposed')) return refuse('not_allowed', LEADS_NO_MORE);
    if (answer.status >= 300 && answer.status < 400) return ledElsewhere();
    if (answer.status === 401)
      return refuse(
        'not_allowed',
        'The first laptop does not know this one any more. Pair it anew: Office, Doors shows a code.',
      );
    if (!answer.ok) return refuse('missing', `The first laptop answers ${answer.status}.`);
    return accept(linesMessage.parse(await answer.json()));
  } catch (fault) {
    return silence(fault);
  }
}

const LEADS_NO_MORE = 'The laptop at this address does not lead the book any more: follow the one that took over.';

/** What this book knows of who leads it: a first laptop that was deposed hears it here at the latest. */
function leadCarried(book: Book): Record<string, string> {
  const lead = leadOf(book);
  return lead ? { cookie: `${LEAD_COOKIE}=${sealLead(book, lead)}` } : {};
}

function silence(fault: unknown): Result<never> {
  if (isOfCertificate(fault)) return refuse('wrong_address', UNKNOWN_CERTIFICATE);
  return refuse('missing', 'The first laptop does not answer.');
}

const UNKNOWN_CERTIFICATE =
  'The certificate of the first laptop is not known here, or not good for this address. Bring its authority.pem over: docs/network.md says how.';

/** OpenSSL's and Node's codes for a certificate that nobody known vouches for, or that is of another name or time. */
function isOfCertificate(fault: unknown): boolean {
  const { cause } = fault as { readonly cause?: { readonly code?: unknown } };
  return /CERT|VERIFY/.test(String(cause?.code ?? ''));
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

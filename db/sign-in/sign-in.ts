/** Signing in with a passphrase or a code. What is wrong is never told apart: no name is given away. */

import { and, count, eq, gt, lt, max, sql } from 'drizzle-orm';
import { COST } from '#db/book/scrypt.ts';
import { type Worker, workerById, workerByName } from '#db/worker/queries.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { foldName } from '#lib/result/search.ts';
import { FREE_TRIES, waitSeconds } from '#lib/worker/worker.ts';
import { decidePassphrase, isPassphrase, takeCode } from './credentials.ts';
import { hashInTurn } from './hashing.ts';
import { hashOf, storePassphrase } from './passphrases.ts';
import { beginSession } from './sessions.ts';
import type { SignIns } from './since.ts';
import { noteHappening, noteRefused, type Store } from './store.ts';
import { wrongTry } from './tables.ts';

export interface Place extends SignIns {
  /** Milliseconds since 1970. */
  readonly now: number;
  /** What the browser calls itself, for the list of what happened. */
  readonly device: string;
  /** Whose requests count together, as `clientOf` says it. */
  readonly client: string;
}

export interface SignedIn {
  readonly token: string;
  readonly worker: Worker;
}

const WRONG = 'The name and the passphrase do not belong together. Try again, or ask the office for a code.';
// Hashing for a name that nobody has takes as long as for one that somebody has.
const NOBODY = `$scrypt$ln=${COST.ln},r=${COST.r},p=${COST.p}$${'A'.repeat(22)}$${'A'.repeat(43)}`;
/** From more clients than this at once a name is guessed by design: it then waits wherever it is typed. */
const CLIENTS_BEFORE_ALL_WAIT = 4;

/** Signs in by name and passphrase; each wrong try in a row makes the name wait longer at this client, a minute at most. */
export async function signIn(place: Place, name: string, passphrase: string): Promise<Result<SignedIn>> {
  const shown = await whoShows(place, name, passphrase);
  return shown.ok ? begin(place, shown.value) : shown;
}

/** The worker of this name and passphrase; slowed down after wrong tries, wherever a passphrase is asked for. */
async function whoShows(place: Place, name: string, passphrase: string): Promise<Result<Worker>> {
  const { book, store, now, client } = place;
  const folded = foldName(name).slice(0, 80);
  const tried = `${folded} ${client}`;
  const wait = secondsLeft(store, { tried, folded, now });
  if (wait > 0) {
    noteRefused(store, 'made to wait', { ...place, at: now, who: name });
    return refuse(
      'on_hold',
      `There were several wrong tries: wait ${wait} ${wait === 1 ? 'second' : 'seconds'}, then try again.`,
      'passphrase',
    );
  }
  // Counted before the slow part, so that a burst of guesses cannot slip past the count.
  countWrong(store, { tried, folded, now });
  const worker = workerByName(book, name);
  const hash = (worker && hashOf(store, worker.passphraseMark)) ?? NOBODY;
  const right = await hashInTurn(client, () => isPassphrase(passphrase.slice(0, 1000), hash));
  if (right === undefined) {
    // Nobody looked at this try, so it was no wrong one.
    store.db
      .update(wrongTry)
      .set({ inARow: sql`${wrongTry.inARow} - 1` })
      .where(eq(wrongTry.tried, tried))
      .run();
    return refuse('on_hold', 'Many people are signing in from here at once: try again in a few seconds.');
  }
  // Hashing takes a moment, in which the office may have given them another passphrase.
  const still = workerByName(book, name);
  if (!worker || !right || !still || still.hasLeft || still.passphraseMark !== worker.passphraseMark) {
    noteRefused(store, 'wrong passphrase', { ...place, at: now, who: name });
    return refuse('not_allowed', WRONG, 'passphrase');
  }
  store.db.delete(wrongTry).where(eq(wrongTry.tried, tried)).run();
  return accept(still);
}

/** Signs a device in with a one-time code. */
export function signInWithCode(place: Place, code: string): Result<SignedIn> {
  const { book, store, now } = place;
  const workerId = takeCode(place, code, now);
  const worker = workerId === undefined ? undefined : workerById(book, workerId);
  if (worker && !worker.hasLeft) return begin(place, worker);
  noteRefused(store, 'wrong code', { ...place, at: now, who: '' });
  return refuse('not_allowed', 'This code is not good (any more): have a new one made. It lasts ten minutes.', 'code');
}

/** Begins the session of somebody who has shown who they are. */
function begin(place: Place, { id, name, stations, hasLeft }: Worker): Result<SignedIn> {
  const { store, now, device } = place;
  noteHappening(store, 'signed in', { at: now, who: name, device });
  const token = beginSession(place, { workerId: id, device, now });
  return accept({ token, worker: { id, name, stations, hasLeft } });
}

interface Try {
  /** The folded name and the client together. */
  readonly tried: string;
  readonly folded: string;
  readonly now: number;
}

function secondsLeft({ db }: Store, { tried, folded, now }: Try): number {
  const here = db.select().from(wrongTry).where(eq(wrongTry.tried, tried)).get()?.waitUntil ?? 0;
  const slowed = and(eq(wrongTry.nameFolded, folded), gt(wrongTry.inARow, FREE_TRIES));
  const all = db
    .select({ clients: count(), last: max(wrongTry.last) })
    .from(wrongTry)
    .where(slowed)
    .get();
  const { clients = 0, last } = all ?? {};
  const everywhere = (last ?? 0) + waitSeconds(clients - CLIENTS_BEFORE_ALL_WAIT + FREE_TRIES) * 1000;
  // A clock that was set back must not make anybody wait for hours.
  const left = Math.ceil((Math.max(here, everywhere) - now) / 1000);
  return left > 60 ? 0 : Math.max(left, 0);
}

function countWrong({ db }: Store, { tried, folded, now }: Try): void {
  // An hour later nobody remembers; otherwise made-up names would fill the file.
  db.delete(wrongTry)
    .where(lt(wrongTry.last, now - 3_600_000))
    .run();
  const { inARow } = db
    .insert(wrongTry)
    .values({ tried, nameFolded: folded, inARow: 1, waitUntil: 0, last: now })
    .onConflictDoUpdate({ target: wrongTry.tried, set: { inARow: sql`${wrongTry.inARow} + 1`, last: now } })
    .returning({ inARow: wrongTry.inARow })
    .get();
  const waitUntil = now + waitSeconds(inARow) * 1000;
  db.update(wrongTry).set({ waitUntil }).where(eq(wrongTry.tried, tried)).run();
}

/** Another passphrase for somebody signed in, who shows the old one first: a device may be left lying about. */
export interface Renewal {
  readonly name: string;
  readonly old: string;
  readonly passphrase: string;
  /** The random key of the entry, of which the salt is made. */
  readonly key: string;
}

/**
 * Stores the new hash once the old passphrase was the right one, and gives its mark for the book.
 * @returns a refusal with the field `old` or `passphrase`; wrong tries slow this name down as those of signing in.
 */
export async function decideRenewal(place: Place, { name, old, passphrase, key }: Renewal): Promise<Result<string>> {
  const decided = decidePassphrase(passphrase);
  if (!decided.ok) return decided;
  const shown = await whoShows(place, name, old);
  if (!shown.ok && shown.code === 'not_allowed') {
    return refuse('not_allowed', 'This is not your passphrase. Try again, or ask the office for another.', 'old');
  }
  if (!shown.ok) return { ...shown, field: 'old' };
  if (old === passphrase) return refuse('already', 'This is the passphrase you have: choose another.', 'passphrase');
  return storePassphrase(place, { words: passphrase, key, now: place.now });
}

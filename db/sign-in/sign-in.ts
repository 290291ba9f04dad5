/** Signing in with a passphrase or a code. What is wrong is never told apart: no name is given away. */
import { eq, lt, sql } from 'drizzle-orm';
import { type Worker, workerById, workerByName } from '#db/worker/queries.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { foldName } from '#lib/result/search.ts';
import { waitSeconds } from '#lib/worker/worker.ts';
import { COST, decidePassphrase, hashPassphrase, isPassphrase, takeCode } from './credentials.ts';
import { beginSession } from './sessions.ts';
import type { SignIns } from './since.ts';
import { noteHappening, type Store } from './store.ts';
import { wrongTry } from './tables.ts';

export interface Place extends SignIns {
  /** Milliseconds since 1970. */
  readonly now: number;
  /** What the browser calls itself, for the list of what happened. */
  readonly device: string;
}

export interface SignedIn {
  readonly token: string;
  readonly worker: Worker;
}

const WRONG = 'The name and the passphrase do not belong together. Try again, or ask the office for a code.';
// Hashing for a name that nobody has takes as long as for one that somebody has.
const NOBODY = `$scrypt$ln=${COST.ln},r=${COST.r},p=${COST.p}$${'A'.repeat(22)}$${'A'.repeat(43)}`;
const MOST_AT_ONCE = 8;
let hashing = 0;

/** Signs in by name and passphrase; each wrong try in a row makes the name wait longer, a minute at most. */
export async function signIn(place: Place, name: string, passphrase: string): Promise<Result<SignedIn>> {
  const shown = await whoShows(place, name, passphrase);
  return shown.ok ? begin(place, shown.value) : shown;
}

/** The worker of this name and passphrase; slowed down after wrong tries, wherever a passphrase is asked for. */
async function whoShows(place: Place, name: string, passphrase: string): Promise<Result<Worker>> {
  const { book, store, now, device } = place;
  const folded = foldName(name).slice(0, 80);
  const wait = secondsLeft(store, folded, now);
  if (wait > 0) {
    noteHappening(store, 'made to wait', { at: now, who: name, device });
    return refuse(
      'on_hold',
      `There were several wrong tries: wait ${wait} ${wait === 1 ? 'second' : 'seconds'}, then try again.`,
      'passphrase',
    );
  }
  // Each hash takes 128 MB: a crowd of strangers must not take the laptop's memory.
  if (hashing >= MOST_AT_ONCE) return refuse('on_hold', 'Many are signing in at once: try again in a few seconds.');
  // Counted before the slow part, so that a burst of guesses cannot slip past the count.
  countWrong(store, folded, now);
  const worker = workerByName(book, name);
  hashing += 1;
  const right = await isPassphrase(passphrase.slice(0, 1000), worker?.passphraseHash ?? NOBODY).finally(() => {
    hashing -= 1;
  });
  // Hashing takes a moment, in which the office may have given them another passphrase.
  const still = workerByName(book, name);
  if (!worker || !right || !still || still.hasLeft || still.passphraseHash !== worker.passphraseHash) {
    noteHappening(store, 'wrong passphrase', { at: now, who: name, device });
    return refuse('not_allowed', WRONG, 'passphrase');
  }
  store.db.delete(wrongTry).where(eq(wrongTry.nameFolded, folded)).run();
  return accept(still);
}

/** Signs a device in with a one-time code. */
export function signInWithCode(place: Place, code: string): Result<SignedIn> {
  const { book, store, now, device } = place;
  const workerId = takeCode(place, code, now);
  const worker = workerId === undefined ? undefined : workerById(book, workerId);
  if (worker && !worker.hasLeft) return begin(place, worker);
  noteHappening(store, 'wrong code', { at: now, who: '', device });
  return refuse('not_allowed', 'This code is not good (any more): have a new one made. It lasts ten minutes.', 'code');
}

/** Begins the session of somebody who has shown who they are. */
function begin(place: Place, { id, name, stations, hasLeft }: Worker): Result<SignedIn> {
  const { store, now, device } = place;
  noteHappening(store, 'signed in', { at: now, who: name, device });
  const token = beginSession(place, { workerId: id, device, now });
  return accept({ token, worker: { id, name, stations, hasLeft } });
}

function secondsLeft({ db }: Store, folded: string, now: number): number {
  const until = db.select().from(wrongTry).where(eq(wrongTry.nameFolded, folded)).get()?.waitUntil;
  // A clock that was set back must not make anybody wait for hours.
  const left = until === undefined ? 0 : Math.ceil((until - now) / 1000);
  return left > 60 ? 0 : Math.max(left, 0);
}

function countWrong({ db }: Store, folded: string, now: number): void {
  // An hour later nobody remembers; otherwise made-up names would fill the file.
  db.delete(wrongTry)
    .where(lt(wrongTry.last, now - 3_600_000))
    .run();
  const { inARow } = db
    .insert(wrongTry)
    .values({ nameFolded: folded, inARow: 1, waitUntil: 0, last: now })
    .onConflictDoUpdate({ target: wrongTry.nameFolded, set: { inARow: sql`${wrongTry.inARow} + 1`, last: now } })
    .returning({ inARow: wrongTry.inARow })
    .get();
  const waitUntil = now + waitSeconds(inARow) * 1000;
  db.update(wrongTry).set({ waitUntil }).where(eq(wrongTry.nameFolded, folded)).run();
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
 * The hash for the book, once the old passphrase was the right one.
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
  return accept(await hashPassphrase(passphrase, key));
}

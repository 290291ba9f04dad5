/** Passphrases of whoever is not signed in are hashed in fair turns: twelve guesses of one phone keep nobody out. */
import { Turns } from '#lib/network/turns.ts';

/**
 * Two at once: each takes 128 MB and a core for some tenths of a second, and two of Node's four threads stay free for
 * files. One of one client, so that another never waits for all of them; six more of it may wait, because several people
 * behind one router sign in at once. Sixty of all clients.
 */
const LIMITS = { atOnce: 2, eachAtOnce: 1, each: 6, all: 60 };

/** Routes and the server have copies of this module of their own, but only one processor. */
const place = globalThis as typeof globalThis & { peltryHashing?: Turns };

/** What `hash` gives once its turn came, or undefined if too many of this client wait already. */
export function hashInTurn<T>(client: string, hash: () => Promise<T>): Promise<T | undefined> {
  place.peltryHashing ??= new Turns(LIMITS);
  const turns = place.peltryHashing;
  return new Promise((resolve, reject) => {
    turns.add(client, {
      begin: (done) => void hash().then(resolve, reject).finally(done),
      refuse: () => resolve(undefined),
    });
  });
}

/** Which devices did not get in, and why: what the office reads at Network. In memory only, of the newest. */
import 'server-only';
import { clockOffBy } from '#lib/network/clock.ts';
import { hostOf } from '#lib/network/hosts.ts';

export interface TurnedAway {
  readonly words: string;
  /** Milliseconds since 1970. */
  readonly at: number;
}

const MOST = 8;
const SHOWN_MS = 60 * 60_000;
const LONGEST = 60;

// The server itself and the pages have separate copies of this module.
const place = globalThis as typeof globalThis & { peltryTurnedAway?: Map<string, number> };
const all = () => {
  place.peltryTurnedAway ??= new Map();
  return place.peltryTurnedAway;
};

function note(words: string, now: number): void {
  all().delete(words);
  all().set(words, now);
  for (const oldest of [...all().keys()].slice(0, -MOST)) all().delete(oldest);
}

/** A browser asked under a name that is not ours. What is no name at all is not repeated. */
export function noteWrongName(header: string, now = Date.now()): void {
  const name = hostOf(header)?.slice(0, LONGEST);
  const asked = name ? `for “${name}”` : 'under a name that cannot be read';
  const toDo = 'read the address above out again, or enter that name below if it leads here.';
  note(`A device asked ${asked}, which is no name of this laptop: ${toDo}`, now);
}

/** A browser came with http to the port that is for https. */
export function noteHttpAtHttps(now = Date.now()): void {
  note('A device came with http to the port for https. It was led on; write the address with https on the wall.', now);
}

/** Somebody signed in on a device whose clock is more than five minutes off; nothing where it is right. */
export function noteClock(worker: string, device: number, now = Date.now()): void {
  const off = clockOffBy(device, now);
  if (off) note(`The clock of the device of ${worker} is ${off}: set it to the time of the hall.`, now);
}

/** Those of the last hour, newest first. */
export function turnedAway(now = Date.now()): TurnedAway[] {
  const known = [...all()].map(([words, at]) => ({ words, at }));
  return known.filter(({ at }) => at > now - SHOWN_MS).reverse();
}

import 'server-only';
import { EventEmitter, once } from 'node:events';
import { newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';

/** A second laptop, by what it calls itself: which line it has on its own disk, and since when it is silent. */
interface Follower {
  line: number;
  /** Milliseconds since 1970 at which it was heard last. */
  at: number;
  /** How many of its requests are being answered: it is there while one is. */
  asking: number;
}

interface Followers {
  readonly known: Map<string, Follower>;
  readonly bell: EventEmitter;
  /** Since when an entry was answered without a second laptop having it; null while all that was asked for was there. */
  alone: number | null;
}

const place = globalThis as typeof globalThis & { peltryFollowers?: Followers };

function followers(): Followers {
  place.peltryFollowers ??= { known: new Map(), bell: new EventEmitter().setMaxListeners(0), alone: null };
  return place.peltryFollowers;
}

const MOST_FOLLOWERS = 20;

/**
 * Notes that a second laptop has all lines up to `line`: it asks for the next one only once its own book holds them.
 * Gives the function that says that its request was answered.
 */
export function noteFollower(name: string, line: number): () => void {
  const { known, bell } = followers();
  const follower = known.get(name) ?? { line, at: 0, asking: 0 };
  if (!known.has(name) && known.size >= MOST_FOLLOWERS) return () => undefined;
  known.set(name, follower);
  Object.assign(follower, { line, at: Date.now(), asking: follower.asking + 1 });
  bell.emit('line');
  return () => {
    Object.assign(follower, { at: Date.now(), asking: follower.asking - 1 });
  };
}

export interface FollowerView {
  readonly name: string;
  /** How many entries it lacks. */
  readonly behind: number;
  /** Seconds since it was heard; 0 while it waits for the next line. */
  readonly silentSeconds: number;
}

/** The second laptops that have asked since the program was started. */
export function followersView(book: Book): FollowerView[] {
  const [head, now] = [newestLine(book), Date.now()];
  return [...followers().known].map(([name, { line, at, asking }]) => ({
    name,
    behind: Math.max(0, head - line),
    silentSeconds: asking > 0 ? 0 : Math.floor((now - at) / 1000),
  }));
}

const has = (line: number): boolean => [...followers().known.values()].some((one) => one.line >= line);

/** Long enough for a line to get there and be written; short enough for a browser to wait for its answer. */
const ANSWERS_WITHIN_MS = 2000;

/**
 * Waits until a second laptop has the line on its disk, for two seconds at most. Once one has not answered, nobody waits
 * again until it does: the entry is saved here in any case, and a loose cable must not stop the sale.
 */
export async function untilFollowed(line: number): Promise<boolean> {
  const here = followers();
  if (here.alone !== null) {
    if (has(line - 1)) here.alone = null;
    else return false;
  }
  const late = AbortSignal.timeout(ANSWERS_WITHIN_MS);
  try {
    while (!has(line)) await once(here.bell, 'line', { signal: late });
    return true;
  } catch {
    here.alone ??= Date.now();
    return false;
  }
}

/** Since when entries are saved here alone; null while every one that had to wait was at a second laptop. */
export function aloneSince(): number | null {
  return followers().alone;
}

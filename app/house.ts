import 'server-only';
import { EventEmitter } from 'node:events';
import type { Book } from '#db/open.ts';
import type { Claim } from '#db/serving.ts';
import type { Trouble } from '#db/trouble.ts';
import type { Reply } from './reply.ts';
import type { Letter } from './wire-letter.ts';

/**
 * What this process has of the book: the open file, the bell that rings when its log grows, and what is the matter.
 * Pages and route handlers are given separate copies of a module, so all of it lives on `globalThis`.
 */
export interface House {
  book: Book | undefined;
  claim: Claim | undefined;
  /** Why nothing is written, until a person says that it is mended; null when all is well. */
  trouble: Trouble | null;
  /** How the file looked after it could not be brought up to date: so long as it looks so, nobody tries again. */
  failedOn: string | undefined;
  readonly bell: EventEmitter;
  /** Whether a `Host` is one of this machine's or allowed by the office; the server's gate asks it. */
  knowsHost: ((host: string) => boolean) | undefined;
  /** Answers an entry at the door, once the framework has loaded it; the server's gate gives entries to it. */
  door: ((command: string, entry: Letter) => Promise<Reply>) | undefined;
}

const place = globalThis as typeof globalThis & { peltryHouse?: House };

export function house(): House {
  place.peltryHouse ??= {
    ...{ book: undefined, claim: undefined, trouble: null, failedOn: undefined, knowsHost: undefined },
    door: undefined,
    bell: new EventEmitter().setMaxListeners(0),
  };
  return place.peltryHouse;
}

/** The hall as it is reached from outside: the keys of the encrypted line, the addresses of now, and what is said of them. */
import 'server-only';
import { existsSync, rmSync } from 'node:fs';
import { qrInLetters } from '#app/papers/encoder.ts';
import { writeToDisk } from '#db/book/files.ts';
import type { Book } from '#db/book/open.ts';
import { type Keys, keepCertificate, keysOf } from '#db/certificate/keep.ts';
import { certificateOf, ownHosts, wordsOf } from '#db/certificate/names.ts';
import { askLaptop } from '#db/follow/ask.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { bestFirst } from '#lib/network/hosts.ts';
import { noteAddresses } from './address-change.ts';
import { serverState } from './state.ts';

interface KeysOfNow {
  readonly keys: Keys | null;
  /** Why they could not be made anew; empty where all is well. */
  readonly why: string;
  readonly fresh: boolean;
}

/** The keys of the encrypted line. For the hall they are made where there are none, or where they are good no more. */
export async function keysNow(bookFile: string, hall: boolean, now = new Date()): Promise<KeysOfNow> {
  const { book } = serverState();
  if (!hall || !book) return { keys: keysOf(bookFile), why: '', fresh: false };
  try {
    const kept = await keepCertificate(book, now);
    // Not what the office entered: an address counts as long as this machine has it.
    noteAddresses(bookFile, bestFirst([...ownHosts()]), now.getTime());
    if (kept.ok) return { keys: kept.value, why: '', fresh: kept.value.fresh };
    return { keys: keysOf(bookFile), why: kept.message, fresh: false };
  } catch (fault) {
    // The disk fails: whoever is in the hall goes on with what there is.
    console.error(fault);
    return { keys: keysOf(bookFile), why: 'The certificate could not be made: look at the disk.', fresh: false };
  }
}

export interface HallAddress {
  readonly host: string;
  /** `http://192.168.1.10:3000`, for everybody. */
  readonly open: string;
  /** `https://192.168.1.10:3443`, for the staff; empty while there is no encrypted line. */
  readonly secure: string;
}

/** Where the hall reaches this machine now, the address that is best read out first. */
export function hallAddresses(book: Book | undefined): HallAddress[] {
  const { PELTRY_PORT: port = '3000', PELTRY_SECURE_PORT: securePort } = process.env;
  const hosts = bestFirst([...ownHosts(), ...(book ? networkSaid(book).hosts : [])]);
  return hosts.map((host) => ({
    ...{ host, open: `http://${host}:${port}` },
    secure: securePort ? `https://${host}:${securePort}` : '',
  }));
}

/** Lies beside the book while its hall is open, so that the next start opens it again. */
const openFile = (bookFile: string) => `${bookFile}.hall`;

/** `now` opens or shuts it for later starts; without it, what was said last. A disk that fails changes nothing of tonight. */
export function hallRemembered(bookFile: string, now?: boolean): boolean {
  const file = openFile(bookFile);
  try {
    if (now === true && !existsSync(file)) writeToDisk(file, 'open\n');
    if (now === false) rmSync(file, { force: true });
  } catch (fault) {
    console.error(fault);
  }
  return existsSync(file);
}

export const isHallOpen = (): boolean => process.env.PELTRY_HALL === 'yes';

/** The six words by which a device compares our authority; empty where there is none yet. */
export function hallWords(bookFile: string): string {
  const authority = certificateOf(bookFile, 'authority');
  return authority ? wordsOf(authority) : '';
}

/** What the terminal says once the hall is open: the address to read out, the code to photograph, the words to compare. */
export function welcomeWords(): string[] {
  const { book } = serverState();
  const [best, ...others] = hallAddresses(book);
  if (!book || !best) return ['This machine has no address: it is on no network.'];
  const join = `${best.open}/join`;
  return [
    '',
    `The hall is open. Everybody joins at ${join}`,
    ...(best.secure ? [`Staff work at ${best.secure}`] : []),
    ...(others.length > 0 ? [`Also: ${others.map(({ host }) => host).join(', ')}`] : []),
    `The six words: ${hallWords(book.file)}`,
    qrInLetters(join),
  ];
}

const TRIED_WITHIN_MS = 5000;

/**
 * Asks this machine at its own addresses of the network, as a device that trusts the authority does, and says how it
 * went. What a firewall or the router keeps away from others is not seen from here.
 */
export async function triedWords(): Promise<string[]> {
  const { book } = serverState();
  const ca = book && keysOf(book.file, 'authority')?.cert;
  const all = hallAddresses(book).filter(({ host, secure }) => secure !== '' && !/[a-z]/.test(host.slice(-1)));
  if (!ca || all.length === 0) return [];
  const asked = all.map(async ({ secure }) => {
    const signal = AbortSignal.timeout(TRIED_WITHIN_MS);
    const why = await askLaptop(new URL('/api/join', secure), { headers: {}, ca: [ca], signal }).then(
      ({ status }) => (status === 200 ? '' : `it answers ${status}`),
      (fault: Error) => fault.message,
    );
    return { secure, why };
  });
  const found = await Promise.all(asked);
  return found.map(({ secure, why }) =>
    why === ''
      ? `Tried ${secure}: a device that trusts the authority gets in. Go on.`
      : `Tried ${secure}: nobody gets in there (${why}). Use another address, or look at the firewall.`,
  );
}

interface HallOfProcess {
  /** Opens the lines to the hall; gives why it could not, or nothing. */
  open(): Promise<string>;
  /** Looks at addresses and certificate at once, as it does every minute. */
  look(now?: Date): Promise<void>;
}

/** The lines of this process, which app/server/lines/lines.mjs keeps; undefined under a server of another kind. */
export function hallOfProcess(): HallOfProcess | undefined {
  return (globalThis as typeof globalThis & { peltryHall?: HallOfProcess }).peltryHall;
}

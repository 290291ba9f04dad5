/** The hall as it is reached from outside: the keys of the encrypted line, the addresses of now, and what is said of them. */
import 'server-only';
import { qrInLetters } from '#app/papers/encoder.ts';
import type { Book } from '#db/book/open.ts';
import { type Keys, keepCertificate, keysOf } from '#db/certificate/keep.ts';
import { certificateOf, ownHosts, wordsOf } from '#db/certificate/names.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { bestFirst } from '#lib/network/hosts.ts';
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

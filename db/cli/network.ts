import { existsSync } from 'node:fs';
import { hostname } from 'node:os';
import { assertPresent, claimBook } from '#db/book/check-file.ts';
import { decideNewFile, writeToDisk } from '#db/book/files.ts';
import { bookCommand, quoted } from '#db/book/missing.ts';
import { keysOf } from '#db/certificate/keep.ts';
import { certificateFile, certificateOf, fingerprintOf, wordsOf } from '#db/certificate/names.ts';
import { believed } from '#db/follow/ask.ts';
import { deposedBy, leftOut, leftOutText } from '#db/follow/deposed.ts';
import { epochInWords } from '#db/follow/epoch.ts';
import { authorityByWords, follow, pairWith } from '#db/follow/follow.ts';
import { noteFollowed } from '#db/follow/followed.ts';
import { followKey, storeFollowKey } from '#db/follow/laptops.ts';
import { takeOver } from '#db/follow/take-over.ts';
import type { Told } from '#db/follow/tell.ts';
import { CODE_MS, makeCode } from '#db/sign-in/credentials.ts';
import type { SignIns } from '#db/sign-in/since.ts';
import { noteHappening, openStore } from '#db/sign-in/store.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { allWorkers, workerByName } from '#db/worker/queries.ts';
import { counted } from '#lib/backup/backups.ts';
import { serveHall } from './serve.ts';
import { failed, makeBook, type Subcommand, type Voice, withBook } from './subcommand.ts';

export const certificateCommand: Subcommand = {
  name: 'certificate',
  says: 'makes the certificate for the encrypted line, by an authority of this association',
  async run({ book: file }, voice) {
    // Its libraries take longer to load than most of what this program does: nothing else needs them.
    const { makeCertificate } = await import('#db/certificate/certificate.ts');
    const made = await withBook(file, (book) => makeCertificate(book, new Date()));
    if (!made.ok) return failed(voice, made.message);
    const { names, endsOn, newAuthority } = made.value;
    const authority = certificateFile(file, 'authority');
    voice.say(`A certificate for ${names.join(', ')}, until ${endsOn}. A server of the hall takes it within a minute.`);
    voice.say(`${newAuthority ? 'Put this file on every phone' : 'The phones keep'}: ${authority}`);
    voice.say(`Its SHA-256 is ${fingerprintOf(file)}.`);
    const certificate = certificateOf(file, 'authority');
    if (certificate) voice.say(`Its six words: ${wordsOf(certificate)}`);
    return 0;
  },
};

export const followCommand: Subcommand = {
  name: 'follow',
  takes: '<address>',
  takesCode: true,
  takesWords: true,
  says: 'keeps this book equal to the one that another laptop serves, until it is stopped',
  async run({ book: file, path: address, code, words }, voice) {
    const authority = words === undefined ? undefined : await authorityByWords(address, words);
    if (authority && !authority.ok) return failed(voice, authority.message);
    const ca = authority ? [authority.value] : believed(file);
    const key = code === undefined ? undefined : await pairWith(address, { code, name: hostname() }, { ca });
    if (key && !key.ok) return failed(voice, key.message);
    if (!existsSync(file)) {
      const made = makeBook(file);
      if (!made.ok) return failed(voice, made.message);
    }
    if (key) storeFollowKey(file, key.value);
    const own = followKey(file);
    if (own === undefined) {
      return failed(
        voice,
        'This laptop is not paired yet. Office, Doors shows a code on the first one: --code <code>.',
      );
    }
    const claim = claimBook(file);
    if (!claim) return failed(voice, 'A server has this book open: only a book that nobody serves can follow.');
    const stop = new AbortController();
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => stop.abort());
    const once = process.env.PELTRY_FOLLOW_ONCE === '1';
    noteFollowed(file, address);
    const following = { address, key: own, ca, stop: stop.signal, once, say: (words: string) => voice.say(words) };
    const done = await withSignInsOf(file, (signIns) => follow(signIns, following)).finally(() => claim.release());
    if (!done.ok) return failed(voice, done.message);
    voice.say(`Followed for ${done.value} lines. When the first laptop is gone: ${bookCommand('take-over', file)}`);
    return 0;
  },
};

export const takeOverCommand: Subcommand = {
  name: 'take-over',
  takesHall: true,
  says: 'proves this copy, and makes this laptop the one that leads the book; the other one takes no entries any more',
  async run({ book: file, hall }, voice) {
    assertPresent(file, false);
    const claim = claimBook(file);
    if (!claim) return failed(voice, 'This book is open in a server or in follow: stop that first, with Ctrl-C.');
    try {
      const proof = verifyBook(file);
      if (!proof.ok) return failed(voice, 'This copy is not whole: another one must lead.', ...proof.problems);
      const key = followKey(file);
      const done = await withBook(file, (book) => takeOver(book, key, new Date()));
      if (!done.ok) return failed(voice, done.message);
      const { epoch, line, fetched, silence, first, told } = done.value;
      voice.say(`Proved ${proof.chain.lines} lines${fetched > 0 ? `, and fetched ${fetched} more` : ''}.`);
      if (silence) voice.warn(silence);
      voice.say(`This laptop leads from line ${line} on (${epochInWords(epoch)}).`);
      voice.say(WORDS_OF_TOLD[told](first || 'the laptop that led before'));
      if (!keysOf(file, 'authority')) voice.warn(NO_AUTHORITY);
      if (!hall) voice.say(`One thing is left to do, here: PELTRY_BOOK=${quoted(file)} npm start -- --hall`);
    } finally {
      claim.release();
    }
    return hall ? serveHall(file) : 0;
  },
};

const NO_AUTHORITY =
  'The authority of the first laptop did not come over: every device has to take a new one, at /join of the open line.';

const WORDS_OF_TOLD: Readonly<Record<Told, (first: string) => string>> = {
  deposed: (first) => `${first} was told, and takes no entries any more.`,
  silent: (first) =>
    `${first} does not answer. It is told as soon as it does, while this laptop serves: leave it switched off.`,
  'goes on': (first) => `${first} answers and does not step down: stop the program there by hand, now.`,
};

export const leftOutCommand: Subcommand = {
  name: 'left-out',
  takes: '<file>',
  says: 'writes the entries of this book that the leading one lacks to a CSV file',
  run: ({ book: file, path }, voice) =>
    withBook(file, (book) => {
      const lead = deposedBy(book);
      if (!lead) return failed(voice, 'This book knows of no other laptop that leads it: nothing is left out.');
      const free = decideNewFile(path);
      if (!free.ok) return failed(voice, free.message);
      writeToDisk(path, leftOutText(book, lead));
      voice.say(`Wrote ${counted(leftOut(book, lead))} that the book of “${lead.laptop}” lacks to ${path}.`);
      return 0;
    }),
};

/** Opens the book and what stands beside it of its workers. */
function withSignInsOf<T>(file: string, work: (signIns: SignIns) => T | Promise<T>): Promise<T> {
  return withBook(file, async (book) => {
    const store = openStore(file);
    try {
      return await work({ book, store });
    } finally {
      store.close();
    }
  });
}

export const codeCommand: Subcommand = {
  name: 'code',
  takes: '<name>',
  says: 'makes a one-time code for a worker, to sign in without a passphrase',
  run: ({ book: file, path: name }, voice) =>
    withSignInsOf(file, (signIns) => {
      const worker = workerByName(signIns.book, name);
      if (!worker || worker.hasLeft) {
        const names = allWorkers(signIns.book).flatMap((one) => (one.hasLeft ? [] : [one.name]));
        return failed(
          voice,
          `No worker of the name ${name} can sign in. There are: ${names.join(', ') || 'none yet'}.`,
        );
      }
      voice.say(codeFor(signIns, worker));
      return 0;
    }),
};

/** Makes a one-time code, and gives the sentence that says whom it lets in. */
function codeFor(signIns: SignIns, { id, name }: { readonly id: number; readonly name: string }): string {
  const now = Date.now();
  const code = makeCode(signIns, id, now);
  noteHappening(signIns.store, 'code made', { at: now, who: `${name}, at the machine`, device: '' });
  return `${code} signs ${name} in once, within ${CODE_MS / 60_000} minutes: type it under With a code.`;
}

/** Passphrases are in no backup: says the code by which somebody of the office comes in, who lets the others in. */
export function codeForOffice(file: string, voice: Voice): Promise<void> {
  return withSignInsOf(file, (signIns) => {
    const worker = allWorkers(signIns.book).find((one) => !one.hasLeft && one.stations.includes('office'));
    if (worker) voice.say(`Passphrases are in no backup. ${codeFor(signIns, worker)}`);
  });
}

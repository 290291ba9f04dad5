import { existsSync } from 'node:fs';
import { claimBook } from '#db/book/check-file.ts';
import { certificateFile, fingerprintOf } from '#db/certificate/names.ts';
import { follow } from '#db/follow/follow.ts';
import { drawFollowKey, followKey, followKeyFile } from '#db/follow/lines.ts';
import { failed, makeBook, type Subcommand, withBook } from './subcommand.ts';

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
    voice.say(`A certificate for ${names.join(', ')}, until ${endsOn}. Start the server anew.`);
    voice.say(`${newAuthority ? 'Put this file on every phone' : 'The phones keep'}: ${authority}`);
    voice.say(`Its SHA-256 is ${fingerprintOf(file)}.`);
    return 0;
  },
};

export const followCommand: Subcommand = {
  name: 'follow',
  takes: '<address>',
  says: 'keeps this book equal to the one that another laptop serves, until it is stopped',
  async run({ book: file, path: address }, voice) {
    const key = process.env.PELTRY_FOLLOW_KEY ?? followKey(file);
    if (key === undefined) {
      const missing = `There is no key at ${followKeyFile(file)}.`;
      return failed(voice, `${missing} Make one on the first laptop with follow-key, and copy it.`);
    }
    if (!existsSync(file)) {
      const made = makeBook(file);
      if (!made.ok) return failed(voice, made.message);
    }
    const claim = claimBook(file);
    if (!claim) return failed(voice, 'A server has this book open: only a book that nobody serves can follow.');
    const stop = new AbortController();
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => stop.abort());
    const once = process.env.PELTRY_FOLLOW_ONCE === '1';
    const following = { address, key, stop: stop.signal, once, say: (words: string) => voice.say(words) };
    const done = await withBook(file, (book) => follow(book, following)).finally(() => claim.release());
    if (!done.ok) return failed(voice, done.message);
    voice.say(`Followed for ${done.value} lines. To take over, serve this book: docs/backups.md says how.`);
    return 0;
  },
};

export const followKeyCommand: Subcommand = {
  name: 'follow-key',
  says: 'draws the key by which a second laptop may follow this book, and says where it lies',
  run({ book }, voice) {
    drawFollowKey(book);
    voice.say(
      `The key lies at ${followKeyFile(book)}. Copy that file to the same place beside the second laptop's book.`,
    );
    return 0;
  },
};

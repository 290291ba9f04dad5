import { existsSync } from 'node:fs';
import { follow } from '../follow/follow.ts';
import { followKey, followKeyFile } from '../follow/follow-key.ts';
import { openBook } from '../open.ts';
import { claimBook } from '../serving.ts';
import type { Subcommand } from './io.ts';
import { makeBook } from './make-book.ts';

export const followCommand: Subcommand = {
  name: 'follow',
  takes: '<address>',
  takesSale: false,
  says: 'keeps this book equal to the one that another laptop serves, until it is stopped',
  async run({ book: file, path: address }, voice) {
    const key = process.env.PELTRY_FOLLOW_KEY ?? followKey(file);
    if (key === undefined) {
      voice.warn(
        `There is no key at ${followKeyFile(file)}. Make one on the first laptop with follow-key, and copy it.`,
      );
      return 1;
    }
    if (!existsSync(file)) {
      const made = makeBook(file);
      if (!made.ok) return warned(voice, made.message);
    }
    const claim = claimBook(file);
    if (!claim) return warned(voice, 'A server has this book open: only a book that nobody serves can follow.');
    const book = openBook(file);
    const stop = new AbortController();
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => stop.abort());
    try {
      const once = process.env.PELTRY_FOLLOW_ONCE === '1';
      const done = await follow(book, { address, key, stop: stop.signal, once, say: (words) => voice.say(words) });
      if (!done.ok) return warned(voice, done.message);
      voice.say(`Followed for ${done.value} lines. To take over, serve this book: docs/backups.md says how.`);
      return 0;
    } finally {
      book.close();
      claim.release();
    }
  },
};

function warned(voice: Parameters<Subcommand['run']>[1], message: string): 1 {
  voice.warn(message);
  return 1;
}

import type { Subcommand } from './io.ts';
import { makeBook } from './make-book.ts';

export const init: Subcommand = {
  name: 'init',
  takes: '',
  takesSale: false,
  says: 'makes an empty book; never over another file',
  run({ book: file }, voice) {
    const made = makeBook(file);
    if (!made.ok) {
      voice.warn(made.message);
      return 1;
    }
    voice.say(`Made an empty book at ${file}.`);
    return 0;
  },
};

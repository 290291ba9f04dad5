import { openBook } from '../open.ts';
import { decideNewFile } from '../save-copy.ts';
import type { Subcommand } from './io.ts';

export const init: Subcommand = {
  name: 'init',
  takes: '',
  takesSale: false,
  says: 'makes an empty book; never over another file',
  run({ book: file }, voice) {
    const free = decideNewFile(file);
    if (!free.ok) {
      voice.warn(free.message);
      return 1;
    }
    openBook(file, { create: true }).close();
    voice.say(`Made an empty book at ${file}.`);
    return 0;
  },
};

import { drawFollowKey, followKeyFile } from '../follow/follow-key.ts';
import type { Subcommand } from './io.ts';

export const followKeyCommand: Subcommand = {
  name: 'follow-key',
  takes: '',
  takesSale: false,
  says: 'draws the key by which a second laptop may follow this book, and says where it lies',
  run({ book }, voice) {
    drawFollowKey(book);
    voice.say(
      `The key lies at ${followKeyFile(book)}. Copy that file to the same place beside the second laptop's book.`,
    );
    return 0;
  },
};

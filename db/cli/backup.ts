import { backupBook } from '../backup.ts';
import type { Subcommand } from './io.ts';

export const backup: Subcommand = {
  name: 'backup',
  takes: '<file>',
  takesSale: false,
  says: 'copies the book to a new file, also while it is in use, with its SHA-256 beside it',
  async run({ book, path }, voice) {
    const done = await backupBook(book, path);
    if (!done.ok) {
      voice.warn(done.message);
      return 1;
    }
    const { file, bytes, sha256, logHead } = done;
    voice.say(`Backed up to ${file}: ${bytes} bytes, SHA-256 ${sha256}, log line ${logHead.seq} ${logHead.hash}.`);
    return 0;
  },
};

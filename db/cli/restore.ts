import { restoreBook } from '../restore.ts';
import type { Subcommand } from './io.ts';

export const restore: Subcommand = {
  name: 'restore',
  takes: '<file>',
  takesSale: false,
  says: 'makes the book anew from a backup that proves whole; never over another file',
  async run({ book, path }, voice) {
    const done = await restoreBook(path, book);
    if (!done.ok) {
      voice.warn(done.message);
      return 1;
    }
    if (!done.sha256Checked) voice.warn('No SHA-256 stood beside the backup to compare with.');
    if (!done.equal) {
      voice.warn(`The restored book ends at log line ${done.logHead.seq}, which is not where the backup ends.`);
      return 1;
    }
    voice.say(`Restored to ${done.file}: ${done.bytes} bytes, log line ${done.logHead.seq} ${done.logHead.hash}.`);
    return 0;
  },
};

import { aheadInWords } from '#lib/backup-words.ts';
import { keepCopy } from '../keep-copy.ts';
import type { Subcommand } from './io.ts';

export const keep: Subcommand = {
  name: 'keep',
  takes: '<folder>',
  takesSale: false,
  says: 'makes a dated backup in a folder, and lets older ones go by the rule',
  async run({ book, path }, voice) {
    const done = await keepCopy(book, path, new Date());
    if (!done.ok) {
      voice.warn(done.message);
      return 1;
    }
    const { file, sha256, logHead, letGo, ahead } = done;
    const gone = letGo.length === 0 ? '' : `; ${letGo.length} older ones let go`;
    voice.say(`Kept ${file}: SHA-256 ${sha256}, log line ${logHead.seq} ${logHead.hash}${gone}.`);
    for (const { title, toDo } of ahead.map(aheadInWords)) voice.warn(`${title} ${toDo} docs/backups.md says how.`);
    return 0;
  },
};

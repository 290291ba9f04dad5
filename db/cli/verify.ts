import { verifyBook } from '../verify/verify-book.ts';
import type { Subcommand } from './io.ts';

export const verify: Subcommand = {
  name: 'verify',
  takes: '',
  takesSale: false,
  says: 'proves the book, and prints in JSON what it found',
  run({ book }, voice) {
    const report = verifyBook(book);
    voice.say(JSON.stringify(report, null, 2));
    return report.ok ? 0 : 1;
  },
};

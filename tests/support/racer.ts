/** One of several processes that record the same lots at once. Says on its output what it was told of each. */
import { writeSync } from 'node:fs';
import { openBook } from '#db/open.ts';
import { giveTo } from '#tests/support/hall.ts';

const [file = '', racer = '', lots = ''] = process.argv.slice(2);
const book = openBook(file);

writeSync(1, 'ready\n');
// The others are ready as well once a line comes in: from here on they race.
process.stdin.once('data', () => {
  for (let lot = 1; lot <= Number.parseInt(lots, 10); lot += 1) {
    const input = { saleId: 1, lotNo: String(lot), kind: 'sold', price: `${racer}.25`, buyerNo: 10 } as const;
    const answer = giveTo(book, 'outcome.record', { input, station: 'block', key: `racer-${racer}-${lot}` });
    writeSync(1, `${lot} ${answer.ok ? 'won' : answer.code}\n`);
  }
  book.close();
  process.exit(0);
});

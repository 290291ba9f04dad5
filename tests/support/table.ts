/** One of several check-in tables that take lots in at once. Says on its output which number each lot was given. */
import { writeSync } from 'node:fs';
import { openBook } from '#db/open.ts';
import { giveTo } from '#tests/support/hall.ts';

const [file = '', table = '', lots = ''] = process.argv.slice(2);
const book = openBook(file);

writeSync(1, 'ready\n');
// The others are ready as well once a line comes in: from here on they all take goods in.
process.stdin.once('data', () => {
  for (let lot = 1; lot <= Number.parseInt(lots, 10); lot += 1) {
    const input = { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '3', note: `table ${table}` };
    const answer = giveTo(book, 'lot.add', { input, station: 'intake', key: `table-${table}-${lot}` });
    writeSync(1, `${answer.ok ? answer.value.lotNo : answer.code}\n`);
  }
  book.close();
  process.exit(0);
});

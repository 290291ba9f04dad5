/**
 * One of several processes that write into one book at once: `racer.ts <book> <its number> <lots> block` records the same
 * lots as the others, and with `intake` takes lots in. Says on its output what it was told of each.
 */
import { writeSync } from 'node:fs';
import { openBook } from '#db/book/open.ts';
import { giveTo } from './hall.ts';

const [file = '', racer = '', lots = '', station] = process.argv.slice(2);
const book = openBook(file);

function record(lot: number): string {
  const input = { saleId: 1, lotNo: String(lot), kind: 'sold', price: `${racer}.25`, buyerNo: 10 } as const;
  const key = `racer-${racer}-${lot}`;
  const answer = giveTo(book, 'outcome.record', { input, station: 'block', key });
  return `${lot} ${answer.ok ? 'won' : answer.code}`;
}

function takeIn(lot: number): string {
  const input = { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '3', note: `table ${racer}` };
  const key = `table-${racer}-${lot}`;
  const answer = giveTo(book, 'lot.add', { input, station: 'intake', key });
  return answer.ok ? answer.value.lotNo : answer.code;
}

writeSync(1, 'ready\n');
// The others are ready as well once a line comes in: from here on they race.
process.stdin.once('data', () => {
  const act = station === 'intake' ? takeIn : record;
  for (let lot = 1; lot <= Number.parseInt(lots, 10); lot += 1) writeSync(1, `${act(lot)}\n`);
  book.close();
  process.exit(0);
});

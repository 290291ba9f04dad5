/**
 * One of several processes that write into one book at once: `racer.ts <book> <its number> <lots> block` records the same
 * lots as the others, and with `intake` takes lots in. Says on its output what it was told of each.
 */
import { writeSync } from 'node:fs';
import { submit } from '#db/door.ts';
import { openBook } from '#db/open.ts';

const [file = '', racer = '', lots = '', station] = process.argv.slice(2);
const book = openBook(file);
const by = { worker: 'Ada', at: '2026-02-28T10:00:00Z' };

function record(lot: number): string {
  const input = { saleId: 1, lotNo: String(lot), kind: 'sold', price: `${racer}.25`, buyerNo: 10 };
  const key = `racer-${racer}-${lot}`;
  const answer = submit(book, { ...by, command: 'outcome.record', input, station: 'block', key });
  return `${lot} ${answer.ok ? 'won' : answer.code}`;
}

function takeIn(lot: number): string {
  const input = { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '3', note: `table ${racer}` };
  const key = `table-${racer}-${lot}`;
  const answer = submit(book, { ...by, command: 'lot.add', input, station: 'intake', key });
  return answer.ok ? (answer.value as { lotNo: string }).lotNo : answer.code;
}

writeSync(1, 'ready\n');
// The others are ready as well once a line comes in: from here on they race.
process.stdin.once('data', () => {
  const act = station === 'intake' ? takeIn : record;
  for (let lot = 1; lot <= Number.parseInt(lots, 10); lot += 1) writeSync(1, `${act(lot)}\n`);
  book.close();
  process.exit(0);
});

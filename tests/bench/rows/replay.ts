/** Log lines given again to an empty book, beside the same rows and lines written bare in one transaction. */

import { submit } from '#db/book/door.ts';
import { type Book, openBookInMemory } from '#db/book/open.ts';
import { replayLog } from '#db/book/replay.ts';
import type { CommandName, InputOf } from '#db/commands.ts';
import { logLines } from '#db/verify/chain.ts';
import { tableNames } from '#db/verify/tables.ts';
import { fillBook } from '#seed/hold-sale.ts';
import { AT, bookOf } from '#tests/bench/big-book.ts';
import { dropTriggers, insertAll, rowsToCopy } from '#tests/bench/copy-rows.ts';
import { doubling, median } from '#tests/bench/figures.ts';
import { type Bench, type Line, repeated, timed } from '#tests/bench/row.ts';
import { shown } from '#tests/bench/table.ts';

const row = (bench: Bench): Line[] => {
  const sizes = bench.short ? [200, 400] : [5000, 50_000];
  const logs = [{ name: "the demo's log", book: demo() }, ...sizes.map((lines) => longLog(lines))];
  const measured = logs.map(({ name, book }) => ({ name, ...measure(bench, book) }));
  const rates = measured.map(({ name, lines, pairs }): Line => {
    const bare = median(pairs.map((pair) => pair.bare / pair.ours));
    return {
      what: `replay, ${name} (${lines} lines)`,
      against: '–',
      figures: pairs.map(({ ours }) => (lines * 1000) / ours),
      unit: 'lines/s',
      target: { atLeast: 10_000 },
      seen: `${shown(bare)} × the rate of bare inserts of the same rows in one transaction`,
    };
  });
  const long = measured.slice(1);
  const growth: Line = {
    what: `replay: twice the lines, from ${sizes[0]} to ${sizes.at(-1)}`,
    against: 'the time of half of them',
    figures: Array.from({ length: bench.runs }, (_, run) =>
      doubling(long.map(({ lines, pairs }) => ({ size: lines, took: pairs[run]?.ours ?? 0 }))),
    ),
    unit: '×',
    target: { atMost: 2.1 },
    seen: '',
  };
  return [...rates, growth];
};

export default row;

function demo(): Book {
  const book = openBookInMemory();
  fillBook(book);
  return book;
}

/** Lots taken in one by one and called one by one, behind an imported sale without lots. */
function longLog(lines: number): { name: string; book: Book } {
  const lots = Math.floor(lines / 2);
  const book = bookOf({ lots: 1, called: 0, sellers: Math.ceil(lots / 20), buyers: 50 });
  let keys = 0;
  const give = <N extends CommandName>(station: 'office' | 'block', command: N, input: InputOf<N>) => {
    keys += 1;
    const answer = submit(book, { command, input, worker: 'bench', station, at: AT, key: `bench-${keys}` });
    if (!answer.ok) throw new Error(answer.message);
  };
  for (let at = 0; at < lots; at += 1) {
    const sellerNo = 1 + (at % Math.ceil(lots / 20));
    give('office', 'lot.add', { saleId: 1, sellerNo, goods: 'muskrat', count: String(1 + (at % 40)), size: 'L' });
  }
  give('office', 'sale.stage', { saleId: 1, stage: 'selling', reason: '' });
  for (let at = 0; at < lots; at += 1) {
    const sold = { kind: 'sold', price: `${10 + (at % 30)}.25`, buyerNo: 1 + (at % 50) } as const;
    give('block', 'outcome.record', { saleId: 1, lotNo: String(at + 2), ...sold });
  }
  return { name: 'lots taken in and called one by one', book };
}

function measure(bench: Bench, book: Book) {
  const lines = [...logLines(book.sqlite)];
  const tables = tableNames(book.sqlite).filter((name) => name !== '__drizzle_migrations');
  const rows = rowsToCopy(book.sqlite, tables);
  book.close();
  const pairs = repeated(bench, () => {
    const ours = timed(() => {
      const replayed = replayLog(lines);
      if (replayed.difference) throw new Error(replayed.difference.message);
      replayed.book.close();
    });
    const bare = openBookInMemory();
    bare.sqlite.pragma('foreign_keys = OFF');
    dropTriggers(bare.sqlite);
    const took = timed(() => insertAll(bare.sqlite, rows));
    bare.close();
    return { ours, bare: took };
  });
  return { lines: lines.length, pairs };
}

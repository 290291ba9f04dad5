/** A hammer entry at the door, in process, beside the same rows in the same tables with no door before them. */
import { copyFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { submit } from '#db/book/door.ts';
import { openBook } from '#db/book/open.ts';
import type { CommandName, InputOf } from '#db/commands.ts';
import { AT, bookOf, newFile, sizeOf } from '#tests/bench/big-book.ts';
import { median } from '#tests/bench/figures.ts';
import { type Bench, type Line, repeated, timed } from '#tests/bench/row.ts';
import { shown } from '#tests/bench/table.ts';
import { bigLotNo } from '#tests/support/big-folder.ts';

const row = (bench: Bench): Line[] => {
  const entries = bench.short ? 200 : 3000;
  const empty = newFile();
  bookOf(sizeOf(entries, 0), empty).close();
  const openForSale = openBook(empty);
  give(openForSale, 'sale.stage', { saleId: 1, stage: 'selling', reason: '' });
  openForSale.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  openForSale.close();
  const pairs = repeated(bench, () => {
    const ours = throughTheDoor(empty, entries);
    return { ours: ours.ms, bare: bareRows(empty, ours.file) };
  });
  const rate = (pick: (pair: (typeof pairs)[number]) => number) => shown((entries * 1000) / median(pairs.map(pick)));
  return [
    {
      what: `a hammer entry at the door, in process (${entries} one after the other)`,
      against: 'the rate of bare better-sqlite3 writing the same rows, synchronous FULL',
      figures: pairs.map(({ ours, bare }) => bare / ours),
      unit: '×',
      target: { atLeast: 0.5 },
      seen: `${rate(({ ours }) => ours)} a second, bare ${rate(({ bare }) => bare)}`,
    },
  ];
};

export default row;

let keys = 0;

function give<N extends CommandName>(book: ReturnType<typeof openBook>, command: N, input: InputOf<N>): void {
  keys += 1;
  const station = command.startsWith('outcome') ? 'block' : 'office';
  const answer = submit(book, { command, input, worker: 'bench', station, at: AT, key: `bench-${keys}` });
  if (!answer.ok) throw new Error(answer.message);
}

function throughTheDoor(empty: string, entries: number): { ms: number; file: string } {
  const file = newFile();
  copyFileSync(empty, file);
  const book = openBook(file);
  const ms = timed(() => {
    for (let at = 1; at <= entries; at += 1) {
      const price = `${10 + (at % 30)}.25`;
      give(book, 'outcome.record', { saleId: 1, lotNo: bigLotNo(at), kind: 'sold', price, buyerNo: 1 + (at % 2) });
    }
  });
  book.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  book.close();
  return { ms, file };
}

/** Each entry again as one transaction: the outcome and its log line, with the settings of a book. */
function bareRows(empty: string, filled: string): number {
  const source = new Database(filled, { readonly: true });
  const outcomes = source.prepare('SELECT * FROM outcome ORDER BY id').raw().all() as unknown[][];
  const lines = source.prepare("SELECT * FROM log WHERE command = 'outcome.record' ORDER BY seq").raw().all();
  source.close();
  const file = newFile();
  copyFileSync(empty, file);
  const bare = new Database(file);
  for (const pragma of ['journal_mode = WAL', 'synchronous = FULL', 'foreign_keys = ON']) bare.pragma(pragma);
  const marks = (count: number) => Array.from({ length: count }, () => '?').join(', ');
  const outcome = bare.prepare(`INSERT INTO outcome VALUES (${marks(outcomes[0]?.length ?? 0)})`);
  const log = bare.prepare(`INSERT INTO log VALUES (${marks((lines[0] as unknown[]).length)})`);
  const write = bare.transaction((at: number) => {
    outcome.run(...(outcomes[at] ?? []));
    log.run(...(lines[at] as unknown[]));
  });
  const ms = timed(() => {
    for (let at = 0; at < outcomes.length; at += 1) write.immediate(at);
  });
  bare.close();
  return ms;
}

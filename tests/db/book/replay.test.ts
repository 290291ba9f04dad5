import { describe, expect, it } from 'vitest';
import type { LogRow } from '#db/book/log.ts';
import { replayLog } from '#db/book/replay.ts';
import { checkMoney } from '#db/verify/verify-book.ts';
import { fullBook, readFrom, rowsOfFile } from '#tests/support/book-file.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';

const FILE = fullBook();
const LINES = readFrom<LogRow>(FILE, 'SELECT *, prev_hash AS prevHash FROM log ORDER BY seq');

/** The replay of the lines, with one of them as `change` makes it. */
function replayOf(seq: number, change: Partial<LogRow>) {
  const replayed = replayLog(LINES.map((line) => (line.seq === seq ? { ...line, ...change } : line)));
  replayed.book.close();
  return replayed;
}

describe('a replay', () => {
  it('makes every row of every table again', () => {
    const replayed = replayLog(LINES);
    expect(replayed).toMatchObject({ lines: LINES.length, difference: null });
    expect(rowsOf(replayed.book)).toEqual(rowsOfFile(FILE));
    replayed.book.close();
  });

  it('makes the same again from its own log', () => {
    const once = replayLog(LINES);
    const own = once.book.sqlite.prepare('SELECT *, prev_hash AS prevHash FROM log ORDER BY seq').all() as LogRow[];
    const twice = replayLog(own);
    expect(rowsOf(twice.book)).toEqual(rowsOf(once.book));
    for (const { book } of [once, twice]) book.close();
  });

  it('takes one line at a time, and none behind the first that differs', () => {
    let taken = 0;
    function* some(): Generator<LogRow> {
      for (const line of LINES) {
        taken += 1;
        yield line.seq === 3 ? { ...line, result: '{}' } : line;
      }
    }
    const replayed = replayLog(some());
    replayed.book.close();
    expect(taken).toBe(3);
    expect(replayed).toMatchObject({ lines: 2, difference: { kind: 'line', line: 3 } });
  });

  it.each([
    ['input that is not JSON', { input: '{"name"' }, /is not JSON/],
    ['input that is refused', { input: '{"name":""}' }, /is refused when it is given again/],
    ['another input', { input: '{"name":"Somebody Else"}' }, /another hash/],
    ['another result', { result: '{"personId":1,"ref":"P0009"}' }, /another result/],
    ['a command that nobody knows', { command: 'person.lose' }, /is refused.*no command/],
    ['a station that may not', { station: 'payout' }, /is refused.*may not/],
    ['the key of a line before it', { key: LINES[0]?.key ?? '' }, /is refused|becomes line 1/],
    ['another time', { at: '2026-02-28T10:00:01Z' }, /another hash/],
    ['another worker', { worker: 'Bea' }, /another hash/],
    ['another hash', { hash: 'f'.repeat(64) }, /another hash/],
  ])('stops at %s', (_, change, message) => {
    const seq = LINES.find(({ command }) => command === 'person.enrol')?.seq ?? 0;
    expect(replayOf(seq, change)).toMatchObject({ lines: seq - 1, difference: { kind: 'line', line: seq } });
    expect(replayOf(seq, change).difference?.message).toMatch(message);
  });

  it('throws what goes wrong while the lines are read', () => {
    function* broken(): Generator<LogRow> {
      yield* LINES.slice(0, 2);
      throw new Error('the disk is gone');
    }
    expect(() => replayLog(broken())).toThrow('the disk is gone');
  });
});

describe('the money of a book', () => {
  it('adds up', () => {
    const { book } = replayLog(LINES);
    expect(checkMoney(book)).toMatchObject({ ok: true, sales: 2, problems: [] });
    book.close();
  });

  it('is a finding and no fault where a sale cannot be settled', () => {
    const { book, saleId, must } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
    book.sqlite.pragma('ignore_check_constraints = ON');
    book.sqlite.exec('UPDATE lot SET count = NULL');
    const report = checkMoney(book);
    expect(report).toMatchObject({ ok: false, sales: 1 });
    expect(report.problems).toEqual([expect.stringMatching(/^Late Winter Sale of 2026-02-28: it cannot be settled/)]);
  });
});

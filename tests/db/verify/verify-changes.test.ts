import { readFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { redactionsIn } from '#db/book/redact.ts';
import { replayLog } from '#db/book/replay.ts';
import { logLines } from '#db/verify/chain.ts';
import { compareTable } from '#db/verify/tables.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import {
  firstLineOf,
  fullBook,
  MARKS,
  readFrom,
  rowsOfFile,
  withBitFlipped,
  withSql,
  withTextFlipped,
} from '#tests/support/book-file.ts';

const WHOLE = fullBook();
const bytes = readFileSync(WHOLE);
const last = readFrom<{ n: number }>(WHOLE, 'SELECT max(seq) AS n FROM log')[0]?.n ?? 0;
const replayed = replayOf(WHOLE);
const lineOf = (command: string) => firstLineOf(WHOLE, command);

function replayOf(file: string) {
  const sqlite = new Database(file, { readonly: true });
  const made = replayLog(logLines(sqlite), redactionsIn(sqlite));
  sqlite.close();
  return made;
}

describe('one changed cell', () => {
  const filled = Object.entries(rowsOfFile(WHOLE)).filter(
    ([name, rows]) => rows.length > 0 && name !== 'sqlite_sequence',
  );
  const cells = filled.flatMap(([table, rows]) => Object.keys(rows[0] ?? {}).map((column) => [table, column] as const));

  it('is tried in every table that a command fills', () => {
    const idle = Object.keys(rowsOfFile(WHOLE)).filter((name) => !filled.some(([table]) => table === name));
    expect(idle).toEqual([]);
  });

  it.each(cells)('is found beside the replay: %s.%s', (table, column) => {
    if (table === '__drizzle_migrations' && column === 'id') return expectKeyless();
    const { file, line } = withOtherCell(table, column);
    if (table === 'log') return void expectFound(file, line);
    const book = new Database(file, { readonly: true });
    const [first] = [...compareTable(table, { book, replay: replayed.book.sqlite, lines: replayed.lines })];
    book.close();
    expect(first).toMatchObject({ kind: 'table', table });
    if (line !== undefined) expect(first).toMatchObject({ line });
  });

  // The log is the same whatever cell of a table was changed, and giving it again is most of what a proof costs.
  it.each(filled.map(([table]) => table))('is found by the whole proof: the last column of %s', (table) => {
    const { file, line } = withOtherCell(table, cells.findLast(([name]) => name === table)?.[1] ?? '');
    const report = expectFound(file, line);
    if (table !== 'log') expect(report.replay.difference).toMatchObject({ kind: 'table', table });
  });

  /** A copy in which one cell of the last row of a table is another, and the log line that wrote the row. */
  function withOtherCell(table: string, column: string) {
    const last = `SELECT rowid AS row, * FROM "${table}" ORDER BY rowid DESC LIMIT 1`;
    const [row] = readFrom<Record<string, number>>(WHOLE, last);
    const other = `CASE typeof("${column}") WHEN 'integer' THEN "${column}" + 1000 WHEN 'text' THEN "${column}" || 'x' ELSE 'x' END`;
    const file = withSql(WHOLE, `UPDATE "${table}" SET "${column}" = ${other} WHERE rowid = ${row?.row}`);
    return { file, line: table === 'log' ? row?.seq : row?.line };
  }

  function expectFound(file: string, line: number | undefined) {
    const report = verifyBook(file);
    expect(report.ok).toBe(false);
    if (line !== undefined) expect(report.firstBadLine).toBe(line);
    expect(report.problems.every((problem) => /[.]$/.test(problem))).toBe(true);
    return report;
  }

  /** That column is declared SERIAL, which SQLite never fills. */
  function expectKeyless() {
    expect(readFrom(WHOLE, 'SELECT 1 FROM __drizzle_migrations WHERE id IS NOT NULL')).toEqual([]);
  }

  it('is shown with both values and the line that wrote it', () => {
    const report = verifyBook(withSql(WHOLE, `UPDATE lot SET count = 14 WHERE count = 13`));
    const line = lineOf('lot.add');
    expect(report.replay.difference).toEqual({
      ...{ kind: 'table', table: 'lot', id: '1', column: 'count', book: 14, replay: 13, line },
      message: 'Row 1 of lot: the book has 14 as count, the log makes it 13.',
    });
  });

  it('is found where it is the same number, but stored as a fraction or as text', () => {
    const [whole, fraction, text] = ['13', '13.0', "'13'"].map((value) => {
      const sqlite = new Database(':memory:');
      sqlite.exec(`CREATE TABLE t (id integer PRIMARY KEY, c, line integer); INSERT INTO t VALUES (1, ${value}, 4)`);
      return sqlite;
    });
    if (!whole || !fraction || !text) throw new Error('three databases');
    const found = (book: Database.Database) => [...compareTable('t', { book, replay: whole, lines: 9 })];
    expect(found(whole)).toEqual([]);
    expect(found(fraction)).toMatchObject([{ table: 't', id: '1', column: 'c', line: 4 }]);
    expect(found(text)).toMatchObject([{ column: 'c', book: '13', replay: 13 }]);
  });
});

describe('one changed byte in the file', () => {
  // Each text stands in a row of its own and in the input of the line that brought it, in either order.
  it.each([
    [MARKS.note, 'lot.add'],
    [MARKS.reason, 'outcome.correct'],
  ])('is found in the row and in the log: %s', (text, command) => {
    for (const nth of [1, 2]) {
      const report = verifyBook(withTextFlipped(WHOLE, text, nth));
      expect(report).toMatchObject({ ok: false, firstBadLine: lineOf(command) });
    }
    expect(() => withTextFlipped(WHOLE, text, 3)).toThrow('nowhere');
  });

  it('is found where a line is not JSON any more', () => {
    const report = verifyBook(withTextFlipped(WHOLE, `"note":"${MARKS.note}`));
    expect(report).toMatchObject({ ok: false, firstBadLine: lineOf('lot.add'), replay: { ok: false } });
  });

  it.each(['hash', 'prev_hash', 'result', 'at', 'worker', 'key'])('is found in a line: its %s', (column) => {
    const [row] = readFrom<{ seq: number; text: string }>(
      WHOLE,
      `SELECT seq, worker || station || command || key || input || result || prev_hash || hash AS text FROM log WHERE seq = ${last}`,
    );
    const [cell] = readFrom<{ start: number }>(
      WHOLE,
      `SELECT length(CAST(${before(column)} AS BLOB)) AS start FROM log WHERE seq = ${last}`,
    );
    const start = bytes.indexOf(row?.text.slice(0, 60) ?? '');
    expect(start).toBeGreaterThan(0);
    const report = verifyBook(withBitFlipped(WHOLE, start + (cell?.start ?? 0)));
    expect(report).toMatchObject({ ok: false, firstBadLine: last });
  });

  /** The columns that stand before one in a stored row of the log, from the worker on. */
  function before(column: string): string {
    const columns = ['worker', 'station', 'command', 'key', 'input', 'result', 'prev_hash', 'hash'];
    const place = columns.indexOf(column);
    // The time stands just before the worker.
    if (place < 0) return "''";
    return ["''", ...columns.slice(0, place)].join(' || ');
  }

  // Most bytes of a file are in use; those that are not (free space in a page, counters in the header) may change
  // unnoticed, but then no row has changed.
  it('anywhere at all: either it is found, or every row is still the same', () => {
    const rows = rowsOfFile(WHOLE);
    let unnoticed = 0;
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.nat(7), (place, bit) => {
        const file = withBitFlipped(WHOLE, place, bit);
        const report = verifyBook(file);
        if (!report.ok) return;
        unnoticed += 1;
        expect(rowsOfFile(file)).toEqual(rows);
      }),
      { numRuns: 120 },
    );
    expect(unnoticed).toBeLessThan(120);
  });
});

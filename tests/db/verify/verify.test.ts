import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { hashOfLine, type LogRow } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import {
  copyOf,
  firstLineOf,
  fullBook,
  olderBook,
  readFrom,
  withBitFlipped,
  withSql,
} from '#tests/support/book-file.ts';
import { giveTo, openHall } from '#tests/support/hall.ts';
import { whileLocked } from '#tests/support/rights.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const WHOLE = fullBook();
const bytes = readFileSync(WHOLE);

const last = readFrom<{ n: number }>(WHOLE, 'SELECT max(seq) AS n FROM log')[0]?.n ?? 0;
const lineOf = (command: string) => firstLineOf(WHOLE, command);

describe('a whole book', () => {
  it('is all well, and is left as it was with nothing beside it', () => {
    const report = verifyBook(WHOLE);
    expect(report).toMatchObject({ ok: true, firstBadLine: null, problems: [] });
    expect(report.chain.lines).toBe(last);
    expect(report.replay.lines).toBe(last);
    expect(report.money.sales).toBe(2);
    expect(readFileSync(WHOLE).equals(bytes)).toBe(true);
    expect(readdirSync(dirname(WHOLE))).toEqual(['sale.book']);
  });

  it('prints as JSON and comes back the same', () => {
    const report = verifyBook(WHOLE);
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });

  it('is all well while it is open and after it was left without closing', () => {
    const file = copyOf(WHOLE);
    const book = openBook(file);
    giveTo(book, 'person.enrol', { input: { name: 'Late Comer' } });
    expect(verifyBook(file)).toMatchObject({ ok: true, chain: { lines: last + 1 } });
    book.close();
  });

  it('is all well where nothing can be written beside it, as on a locked stick', () => {
    const file = copyOf(WHOLE);
    expect(whileLocked(file, () => verifyBook(file))).toMatchObject({ ok: true, chain: { lines: last } });
  });

  it('is all well when an older version wrote it, and is not brought up to date by looking', () => {
    const older = olderBook();
    const before = readFileSync(older);
    expect(verifyBook(older)).toMatchObject({ ok: true, problems: [] });
    expect(readFileSync(older).equals(before)).toBe(true);
  });
});

describe('what is missing', () => {
  it('is found: the last line of the log, by the rows it wrote', () => {
    const report = verifyBook(withSql(WHOLE, `DELETE FROM log WHERE seq = ${last}`));
    expect(report).toMatchObject({ ok: false, chain: { ok: true, lines: last - 1 }, firstBadLine: last });
  });

  it('is found: a line in the middle', () => {
    const report = verifyBook(withSql(WHOLE, 'DELETE FROM log WHERE seq = 5'));
    expect(report).toMatchObject({
      ok: false,
      firstBadLine: 5,
      chain: { message: expect.stringMatching('line 5 is missing') },
    });
  });

  it('is found: a row, and a row too many', () => {
    const less = verifyBook(withSql(WHOLE, 'DELETE FROM bid WHERE id = 1'));
    expect(less.replay.difference).toMatchObject({ table: 'bid', id: '1', column: null, line: lineOf('bid.leave') });
    const more = verifyBook(
      withSql(
        WHOLE,
        `INSERT INTO bid (id, lot_id, buyer_id, kind, price_cents, received_at, line)
          SELECT 99, lot_id, buyer_id, kind, price_cents, received_at, 4 FROM bid WHERE id = 1`,
      ),
    );
    expect(more.replay.difference).toMatchObject({ table: 'bid', id: '99', column: null, line: 4 });
  });

  it('is found: a trigger, and a table too many', () => {
    const less = verifyBook(withSql(WHOLE, `CREATE TABLE more (x)`));
    expect(less.replay.difference).toMatchObject({ kind: 'schema', name: 'table more' });
    const file = copyOf(WHOLE);
    const sqlite = new Database(file);
    sqlite.exec('DROP TRIGGER log_no_delete');
    sqlite.close();
    expect(verifyBook(file).problems).toEqual(['The trigger log_no_delete is missing.']);
  });

  it('is found: the end of the file', () => {
    const file = tempFile();
    writeFileSync(file, bytes.subarray(0, bytes.length - 4096 * 3));
    expect(verifyBook(file)).toMatchObject({ ok: false, integrity: { ok: false } });
  });
});

/** Seals every line again, as somebody would who wants to hide what they changed. */
function sealAnew(sqlite: Database.Database) {
  let prevHash = '0'.repeat(64);
  for (const row of sqlite.prepare('SELECT * FROM log ORDER BY seq').all() as (LogRow & { prev_hash: string })[]) {
    const { prev_hash: _, hash: __, ...line } = row;
    const hash = hashOfLine({ ...line, prevHash });
    sqlite.prepare('UPDATE log SET prev_hash = ?, hash = ? WHERE seq = ?').run(prevHash, hash, row.seq);
    prevHash = hash;
  }
}

describe('a past that was written anew', () => {
  it('is found by the rows, though every line is sealed again', () => {
    const file = withSql(WHOLE, (sqlite) => {
      sqlite.exec(`UPDATE log SET input = replace(input, '"7.75"', '"6.75"') WHERE command = 'outcome.correct'`);
      sealAnew(sqlite);
    });
    const report = verifyBook(file);
    expect(report.chain).toMatchObject({ ok: true });
    expect(report.chain.head.hash).not.toBe(verifyBook(WHOLE).chain.head.hash);
    expect(report.replay.difference).toMatchObject({ kind: 'table', table: 'outcome', column: 'price_cents' });
  });

  const rewrite = (sqlite: Database.Database) => {
    sqlite.exec(`UPDATE log SET input = replace(input, '"7.75"', '"6.75"')`);
    sqlite.exec('UPDATE outcome SET price_cents = 675 WHERE price_cents = 775');
    sealAnew(sqlite);
  };

  it('with its rows as well is found by the head that a settlement sheet keeps', () => {
    const report = verifyBook(withSql(WHOLE, rewrite));
    const sheet = { table: 'settlement', column: 'model', line: lineOf('settlement.issue') };
    expect(report.replay.difference).toMatchObject(sheet);
  });

  it('with its rows as well, and with no sheet behind it, is whole in itself: only a head kept elsewhere tells', () => {
    const file = tempFile();
    const { book, saleId, must } = openHall({ file });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.75', buyerNo: 10 });
    book.close();
    const [before, after] = [file, withSql(file, rewrite)].map(verifyBook);
    expect([before?.ok, after?.ok]).toEqual([true, true]);
    expect(after?.chain.head.seq).toBe(before?.chain.head.seq);
    expect(after?.chain.head.hash).not.toBe(before?.chain.head.hash);
  });
});

describe('what is no book', () => {
  it.each([
    ['no file', () => tempFile()],
    [
      'a folder',
      () => {
        const folder = tempFile();
        mkdirSync(folder);
        return folder;
      },
    ],
    ['an empty file', () => written('')],
    ['a letter', () => written('Dear members, '.repeat(400))],
    ['a damaged header', () => withBitFlipped(WHOLE, 0)],
    ['another kind of database', () => withBitFlipped(WHOLE, 68)],
    [
      'a page size of nothing',
      () => {
        const b = Buffer.from(bytes);
        b.writeUInt16BE(0, 16);
        return written(b);
      },
    ],
    [
      'damage to its list of tables',
      () => {
        const b = Buffer.from(bytes);
        b.fill(0xff, 100, 4096);
        return written(b);
      },
    ],
  ])('is told and is no fault: %s', (_, make) => {
    const report = verifyBook(make());
    expect(report).toMatchObject({ ok: false, opened: { ok: false }, firstBadLine: null });
    expect(report.problems.length).toBe(1);
    expect(report.problems[0]).toMatch(/[.]$/);
  });

  function written(contents: string | Buffer): string {
    const file = `${tempFolder()}/other.book`;
    writeFileSync(file, contents);
    return file;
  }
});

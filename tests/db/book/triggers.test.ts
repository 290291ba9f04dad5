import { describe, expect, it } from 'vitest';
import { bobcatTag, openHall, rowsOf } from '#tests/support/hall.ts';

const hall = openHall();
const { book, saleId, must } = hall;
const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '12', minimum: '5.00' });
must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2', tags: [bobcatTag(1)] });
must('bid.leave', { saleId, lotNo: '1', buyerNo: 10, kind: 'left', price: '6.00' });
must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
must('charge.add', { saleId, sellerNo: 1, kind: 'dues', amount: '25.00', how: 'deducted' });
must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '50.00' });
must('taking.record', { saleId, kind: 'raffle', amount: '12.00' });
const run = (sql: string) => book.sqlite.exec(sql);

// Commands write these only with more than this test needs: a plain row is enough to be kept.
run(`INSERT INTO invoice (sale_id, number, buyer_id, model, issued_at, line) VALUES (1, 1, 1, '{}', 'now', 1)`);
run(`INSERT INTO settlement (sale_id, number, seller_id, model, issued_at, line) VALUES (1, 1, 1, '{}', 'now', 1)`);
run(`INSERT INTO handover (lot_id, buyer_id, kind, at, line) VALUES (1, 1, 'handed', 'now', 1)`);
run(`INSERT INTO drawer_entry (sale_id, kind, checks_cents, at, line) VALUES (1, 'counted', 500, 'now', 1)`);
run('INSERT INTO seller_check (sale_id, number, payment_id, settlement_id, line) VALUES (1, 1001, 1, 1, 1)');
run(`INSERT INTO closing (sale_id, kind, model, worker, at, line) VALUES (1, 'closed', '{}', 'Ada', 'now', 1)`);
run(
  "INSERT INTO dues (person_id, charge_id, member_until, member_line_before, line) VALUES (1, 1, '2027-02-28', 1, 1)",
);
run('INSERT INTO drawer_piece (entry_id, denomination_cents, pieces, line) VALUES (1, 2000, 3, 1)');

run(`INSERT INTO price_list_row (season, goods, count, price_cents, line) VALUES ('1998-99', 'mink', 4, 950, 1)`);

/** Expects SQLite to refuse, with every row as it was. */
function refuses(sql: string, message: RegExp) {
  const before = rowsOf(book);
  expect(() => run(sql)).toThrow(message);
  expect(rowsOf(book)).toEqual(before);
}

const SEALED = ['outcome', 'bid', 'charge', 'payment', 'invoice', 'settlement', 'handover', 'drawer_entry', 'taking'];

describe.each([...SEALED, 'drawer_piece', 'seller_check', 'closing', 'dues', 'price_list_row', 'log'])(
  '%s',
  (table) => {
    it('has a row to try with', () => {
      expect(rowsOf(book)[table]?.length).toBeGreaterThan(0);
    });

    it('refuses every change of a row', () => {
      const columns = book.sqlite.pragma(`table_info(${table})`) as { name: string }[];
      for (const { name } of columns) {
        refuses(`UPDATE "${table}" SET "${name}" = "${name}"`, new RegExp(`${table} is append-only`));
      }
    });

    it('refuses to lose a row', () => {
      refuses(`DELETE FROM "${table}"`, new RegExp(`${table} is append-only`));
      const [row] = rowsOf(book)[table] as Record<string, unknown>[];
      const columns = Object.keys(row ?? {})
        .map((name) => `"${name}"`)
        .join(', ');
      refuses(`REPLACE INTO "${table}" SELECT ${columns} FROM "${table}"`, new RegExp(`${table} is append-only`));
    });
  },
);

describe('money and counts', () => {
  const whole = /CHECK constraint failed/;
  const taken = 'SELECT sql FROM sqlite_master WHERE type = ? AND sql IS NOT NULL';
  const checks = (book.sqlite.prepare(taken).pluck().all('table') as string[]).flatMap((sql) => {
    const table = /CREATE TABLE [`"](\w+)/.exec(sql)?.[1] ?? '';
    const columns = [...sql.matchAll(/^\s*[`"](\w+_cents|\w+_thousandths|count|parts)[`"] integer/gm)];
    return columns.map((match) => ({ table, column: match[1] ?? '' }));
  });

  it('has a check on every column of cents, thousandths, pieces and parts', () => {
    const unchecked = checks.filter(({ table, column }) => {
      const sql = book.sqlite
        .prepare("SELECT sql FROM sqlite_master WHERE type = 'table' AND name = ?")
        .pluck()
        .get(table);
      return !String(sql).includes(`typeof("${table}"."${column}") = 'integer'`);
    });
    expect(checks.length).toBeGreaterThan(10);
    expect(unchecked).toEqual([]);
  });

  it.each([
    [
      'half a cent of a price',
      `INSERT INTO outcome (lot_id, kind, price_cents, buyer_id, replaces_id, at, line) VALUES (1, 'sold', 12.5, 1, 1, '', 1)`,
    ],
    [
      'a price that is text',
      `INSERT INTO outcome (lot_id, kind, price_cents, buyer_id, replaces_id, at, line) VALUES (1, 'sold', 'x', 1, 1, '', 1)`,
    ],
    [
      'a price of nothing',
      `INSERT INTO outcome (lot_id, kind, price_cents, buyer_id, replaces_id, at, line) VALUES (1, 'sold', 0, 1, 1, '', 1)`,
    ],
    [
      'a sold lot without a buyer',
      `INSERT INTO outcome (lot_id, kind, price_cents, replaces_id, at, line) VALUES (1, 'sold', 100, 1, '', 1)`,
    ],
    [
      'a passed lot with a price',
      `INSERT INTO outcome (lot_id, kind, price_cents, replaces_id, at, line) VALUES (1, 'passed', 100, 1, '', 1)`,
    ],
    ['a kind that is none', `INSERT INTO outcome (lot_id, kind, replaces_id, at, line) VALUES (1, 'lost', 1, '', 1)`],
    [
      'half a cent of a charge',
      `INSERT INTO charge (seller_id, kind, amount_cents, how, line) VALUES (1, 'dues', 0.5, 'cash', 1)`,
    ],
    [
      'half a cent of a bid',
      `INSERT INTO bid (lot_id, buyer_id, kind, price_cents, line) VALUES (1, 1, 'left', 0.5, 1)`,
    ],
    [
      'half a cent paid',
      `INSERT INTO payment (sale_id, direction, buyer_id, method, amount_cents, paid_at, line) VALUES (1, 'in', 1, 'cash', 0.5, '', 1)`,
    ],
    [
      'a payment below nothing',
      `INSERT INTO payment (sale_id, direction, buyer_id, method, amount_cents, paid_at, line) VALUES (1, 'in', 1, 'cash', -1, '', 1)`,
    ],
    [
      'a payment of two parties',
      `INSERT INTO payment (sale_id, direction, buyer_id, seller_id, method, amount_cents, paid_at, line) VALUES (1, 'in', 1, 1, 'cash', 1, '', 1)`,
    ],
    ['half a piece', `UPDATE lot SET count = 1.5`],
    ['half a thousandth of an ounce', `UPDATE lot SET weight_thousandths = 7350.5`],
    ['half a cent of a minimum', `UPDATE lot SET minimum_cents = 500.5`],
    ['a minimum without reserve', `UPDATE lot SET without_reserve = 1 WHERE minimum_cents IS NOT NULL`],
    ['half a cent of a fee', `UPDATE sale SET lot_fee_cents = 0.5`],
    ['a stage that is none', `UPDATE sale SET stage = 'over'`],
    ['half a part', `UPDATE partner SET parts = 0.5`],
    ['half a seller number', `UPDATE seller SET seller_no = 1.5`],
    [
      'a lot that came back before it was handed over',
      `INSERT INTO handover (lot_id, buyer_id, kind, at, line) VALUES (2, 1, 'returned', '', 1)`,
    ],
    ['half a coin', 'INSERT INTO drawer_piece (entry_id, denomination_cents, pieces, line) VALUES (1, 25, 1.5, 1)'],
    [
      'half a cent of checks',
      `INSERT INTO drawer_entry (sale_id, kind, checks_cents, at, line) VALUES (1, 'counted', 0.5, '', 1)`,
    ],
    ['a second association', `INSERT INTO association (id, name, line) VALUES (2, 'x', 1)`],
  ])('are never %s', (_, sql) => refuses(sql, whole));
});

describe('what stands once', () => {
  it.each([
    ['a tag on two pieces', `INSERT INTO tag (lot_id, position, tag, line) SELECT 1, 9, tag, 1 FROM tag`],
    [
      'a lot number',
      `INSERT INTO lot (sale_id, lot_number, seller_id, goods_id, by, line) VALUES (1, 1, 1, 1, 'piece', 1)`,
    ],
    ['a first handing over', `INSERT INTO handover (lot_id, buyer_id, kind, at, line) VALUES (1, 1, 'handed', '', 1)`],
    ['a first outcome', `INSERT INTO outcome (lot_id, kind, at, line) VALUES (1, 'passed', '', 1)`],
    ['a buyer number', `INSERT INTO buyer (sale_id, buyer_no, person_id, line) VALUES (1, 10, 1, 1)`],
    ['a seller number', `INSERT INTO seller (sale_id, seller_no, line) VALUES (1, 1, 1)`],
    [
      'a key of the log',
      `INSERT INTO log SELECT 99, at, worker, station, command, key, input, result, prev_hash, hash FROM log WHERE seq = 1`,
    ],
  ])('is refused twice: %s', (_, sql) => refuses(sql, /UNIQUE constraint failed/));

  it('is refused: a second outcome in the place of one', () => {
    run(`INSERT INTO outcome (lot_id, kind, replaces_id, at, line) VALUES (1, 'reopened', 1, '', 1)`);
    refuses(`INSERT INTO outcome (lot_id, kind, replaces_id, at, line) VALUES (1, 'passed', 1, '', 1)`, /UNIQUE/);
  });
});

describe('references', () => {
  it('lead to rows that are there, and those stay', () => {
    refuses(`UPDATE lot SET seller_id = 99 WHERE id = ${lotId}`, /FOREIGN KEY/);
    refuses('DELETE FROM buyer', /FOREIGN KEY/);
  });
});

describe('the tag rule under every command', () => {
  it.each(['sold', 'passed', 'bought_back'])('refuses that a tagged lot with a tag short is %s', (kind) => {
    const price = kind === 'sold' ? '100, 1' : 'NULL, NULL';
    const sql = `INSERT INTO outcome (lot_id, kind, price_cents, buyer_id, at, line) VALUES (2, '${kind}', ${price}, '', 1)`;
    refuses(sql, /one good export tag a piece/);
  });
});

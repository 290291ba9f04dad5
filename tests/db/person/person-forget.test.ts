import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { importFolder } from '#db/exchange/import-folder.ts';
import { readFolder } from '#db/exchange/read-folder.ts';
import { checkChain } from '#db/verify/chain.ts';
import { checkReplay, verifyBook } from '#db/verify/verify-book.ts';
import { AT, type Hall, hallOf, openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

const SECRET = {
  street: '17 Larch Hollow',
  city: 'Quillwater',
  phone: '555-0188',
  email: 'dot@quill.example',
  payee: 'Wim Fenn, guardian',
};
const REACH = ['phone', 'email'];

/** Somebody who neither sold nor bought, enrolled and amended once. */
function withDot(hall: Hall): number {
  const dot = hall.must('person.enrol', { name: 'Dot Fenn', ...SECRET, licenceNo: 'T-9' }).personId;
  hall.must('person.amend', { personId: dot, name: 'Dot Fenn', ...SECRET, phone: '555-0199' });
  return dot;
}

function proofs({ book }: Hall): void {
  expect(checkChain(book.sqlite)).toMatchObject({ ok: true });
  expect(checkReplay(book.sqlite)).toMatchObject({ ok: true, difference: null });
}

describe('contact data', () => {
  it('goes from the rows, from the log and from the file, and the book still verifies', () => {
    const file = tempFile();
    const hall = openHall({ file, stage: 'closed' });
    const dot = withDot(hall);
    hall.book.sqlite.pragma('wal_checkpoint(TRUNCATE)');
    expect(readFileSync(file, 'latin1')).toContain(SECRET.street);
    const given = hall.must('person.forget', { personId: dot, reason: 'Asked by letter' });
    expect(given).toMatchObject({ removed: ['street', 'city', 'region', 'postcode', 'phone', 'email', 'payee'] });
    expect(given.lines).toHaveLength(2);
    const row = hall.book.sqlite.prepare('SELECT * FROM person WHERE id = ?').get(dot);
    expect(row).toMatchObject({ name: 'Dot Fenn', street: '', city: '', phone: '', email: '', payee: '' });
    proofs(hall);
    hall.must('person.enrol', { name: 'Later Comer' });
    proofs(hall);
    hall.book.sqlite.pragma('wal_checkpoint(TRUNCATE)');
    hall.book.close();
    const bytes = readFileSync(file, 'latin1');
    for (const secret of [...Object.values(SECRET), '555-0199']) expect(bytes).not.toContain(secret);
    expect(verifyBook(file)).toMatchObject({ ok: true, problems: [] });
  });

  it('of a seller leaves the address and the payee that an issued sheet carries', () => {
    const hall = openHall();
    hall.must('person.amend', { personId: 1, name: 'Ada Birch', ...SECRET });
    const { saleId } = hall;
    hall.must('sale.stage', { saleId, stage: 'settling', reason: '' });
    hall.must('settlement.issue', { saleId, sellerNo: null, seen: 1 });
    hall.must('payment.record', { saleId, direction: 'in', sellerNo: 1, method: 'cash', amount: '5.00' });
    hall.refuses('person.forget', { personId: 1, reason: 'x' }, { code: 'wrong_stage', field: 'personId' });
    hall.must('sale.stage', { saleId, stage: 'closed', reason: '' });
    expect(hall.must('person.forget', { personId: 1, reason: 'Asked' })).toMatchObject({ removed: REACH });
    const row = hall.book.sqlite.prepare('SELECT street, phone, email, payee FROM person WHERE id = 1').get();
    expect(row).toEqual({ street: SECRET.street, phone: '', email: '', payee: SECRET.payee });
    proofs(hall);
  });

  it('of two people of one imported sale goes one after the other', () => {
    const book = openBook(tempFile(), { create: true });
    const done = importFolder(book, readFolder('tests/cases/sixty-lots'), { worker: 'Ada', at: AT });
    expect(done).toMatchObject({ ok: true });
    const hall = hallOf(book, 1);
    book.sqlite.exec("UPDATE sale SET stage = 'settling'");
    hall.refuses('person.forget', { personId: 1, reason: 'x' }, { code: 'wrong_stage' });
    book.sqlite.exec("UPDATE sale SET stage = 'closed'");
    const before = book.sqlite.prepare("SELECT input FROM log WHERE command = 'sale.import'").pluck().get() as string;
    for (const personId of [1, 2]) hall.must('person.forget', { personId, reason: 'Asked' });
    const after = book.sqlite.prepare("SELECT input FROM log WHERE command = 'sale.import'").pluck().get() as string;
    expect(after.length).toBeLessThan(before.length);
    expect(checkChain(book.sqlite)).toMatchObject({ ok: true });
    book.close();
  });

  it('is refused of nobody, without a reason, and twice is no fault', () => {
    const hall = openHall({ stage: 'closed' });
    hall.refuses('person.forget', { personId: 99, reason: 'x' }, { code: 'unknown', field: 'personId' });
    hall.refuses('person.forget', { personId: 1, reason: ' ' }, { code: 'malformed', field: 'reason' });
    const dot = withDot(hall);
    for (const reason of ['Asked', 'Asked again']) hall.must('person.forget', { personId: dot, reason });
    proofs(hall);
  });
});

describe('a redacted line', () => {
  const hall = openHall({ stage: 'closed' });
  const dot = withDot(hall);
  hall.must('person.forget', { personId: dot, reason: 'Asked' });
  const { sqlite } = hall.book;
  sqlite.exec('DROP TRIGGER log_no_update');

  it.each([
    ['another name', `replace(input, 'Dot Fenn', 'Dot Fern')`],
    ['another licence', `replace(input, 'T-9', 'T-8')`],
    ['a further field', `replace(input, '{', '{"memberNo":"7",')`],
    ['no JSON', `'{'`],
  ])('is found out with %s', (_, changed) => {
    sqlite.exec('BEGIN');
    sqlite.exec(`UPDATE log SET input = ${changed} WHERE command = 'person.enrol' AND input LIKE '%Dot Fenn%'`);
    expect(checkChain(sqlite)).toMatchObject({ ok: false });
    sqlite.exec('ROLLBACK');
    expect(checkChain(sqlite)).toMatchObject({ ok: true });
  });

  it.each(['at', 'worker', 'station', 'key', 'result', 'hash'])('is found out with another %s', (column) => {
    sqlite.exec('BEGIN');
    sqlite.exec(
      `UPDATE log SET "${column}" = "${column}" || 'x' WHERE command = 'person.enrol' AND input LIKE '%Dot%'`,
    );
    expect(checkChain(sqlite)).toMatchObject({ ok: false });
    sqlite.exec('ROLLBACK');
  });

  it('is not believed for a removal that says another sum', () => {
    sqlite.exec('BEGIN');
    sqlite.exec(`UPDATE log SET result = replace(result, '"sum":"', '"sum":"0') WHERE command = 'person.forget'`);
    expect(checkChain(sqlite)).toMatchObject({ ok: false });
    sqlite.exec('ROLLBACK');
  });
});

describe('the log', () => {
  it('lets no line become another, longer, or of a command that carries no contact data', () => {
    const { book, must } = openHall();
    must('person.enrol', { name: 'Dot Fenn', ...SECRET });
    const change = (set: string, where: string) => () => book.sqlite.exec(`UPDATE log SET ${set} WHERE ${where}`);
    expect(change(`input = input || ' '`, `command = 'person.enrol'`)).toThrow(/append-only/);
    expect(change(`input = '{}', worker = 'Bea'`, `command = 'person.enrol'`)).toThrow(/append-only/);
    expect(change(`input = '{}'`, `command = 'sale.stage'`)).toThrow(/append-only/);
    book.close();
  });
});

import { describe, expect, it } from 'vitest';
import type { ListPaper } from '#lib/paper/list.ts';
import { type CheckEntry, checkRegister, checkStub, registerRows } from '#lib/payment/check-papers.ts';
import type { EarlierPayment } from '#lib/payment/paid-so-far.ts';
import { settlementSheet } from '#lib/settlement/sheet.ts';
import { GROUND } from '#tests/papers/support/lots.ts';
import { person, STAMP, sellerFile } from '#tests/papers/support/sheets.ts';
import { lot, money, seller, sold } from '#tests/support/facts.ts';

const check = (number: number, amount: string, over: Partial<CheckEntry> = {}): CheckEntry => ({
  ...{
    number,
    sellerNo: 2,
    personId: 'P1',
    name: 'Ada Birch',
    payee: '',
    amountCents: money(amount),
    paidOn: '2026-02-28',
  },
  ...{ sheetNumber: 7, voidedOn: null, voidReason: null, replaces: null, replacedBy: null },
  ...{ street: '', city: '', region: '', postcode: '' },
  ...over,
});
const lost = { voidedOn: '2026-03-02', voidReason: 'lost in the post' };
const CHECKS = [
  check(1041, '88.75'),
  check(1042, '116.50', { ...lost, replacedBy: 1050 }),
  check(1043, '58.25', { ...lost, voidReason: 'misprinted' }),
  check(1050, '116.50', { replaces: 1042 }),
];
const tableOf = (paper: ListPaper) => {
  const [table] = paper.tables;
  if (!table) throw new Error('a register has a table');
  return table;
};
const wordsOf = (paper: ListPaper) =>
  tableOf(paper).rows.map((row) => row.slice(-2).map(({ words, fine }) => [words, ...fine].filter(Boolean)));

describe('the check register', () => {
  it('adds up the checks that are good, and says of a void one what became of it', () => {
    const paper = checkRegister(GROUND, CHECKS);
    // 88.75 + 116.50; what is void is paid by nobody.
    expect(tableOf(paper)).toMatchObject({ sum: '2 checks good', sumAmount: '205.25' });
    expect(tableOf(paper).rows[0]?.map(({ words }) => words)).toEqual([
      ...['1041', 'Ada Birch', '2', '7', 'February 28, 2026', '88.75'],
    ]);
    expect(wordsOf(paper)).toEqual([
      [['February 28, 2026'], ['88.75']],
      [['February 28, 2026'], ['void', '116.50']],
      [['February 28, 2026'], ['void', '58.25']],
      [['February 28, 2026'], ['116.50']],
    ]);
    expect(tableOf(paper).below).toEqual([
      [],
      ['void March 2, 2026, written anew as 1050: lost in the post'],
      ['void March 2, 2026: misprinted'],
      ['in place of 1042'],
    ]);
  });

  it('of one check, of none that is good, and of none', () => {
    expect(tableOf(checkRegister(GROUND, CHECKS.slice(0, 2)))).toMatchObject({
      sum: '1 check good',
      sumAmount: '88.75',
    });
    expect(tableOf(checkRegister(GROUND, CHECKS.slice(1, 3)))).toMatchObject({
      sum: '0 checks good',
      sumAmount: '0.00',
    });
    expect(tableOf(checkRegister(GROUND, []))).toMatchObject({ rows: [], none: 'No check has been written yet.' });
    expect(tableOf(checkRegister(GROUND, [])).sumAmount).toBeUndefined();
  });

  it('by pages has the rows of the page and the sum of all', () => {
    const page = tableOf(checkRegister(GROUND, CHECKS, CHECKS.slice(0, 1)));
    expect(page.rows.map(([number]) => number?.words)).toEqual(['1041']);
    expect(page).toMatchObject({ sum: '2 checks good', sumAmount: '205.25' });
  });

  it('is a file of rows, in which a void check keeps its amount', () => {
    const plain = ['Ada Birch', '2', '7', '2026-02-28'];
    expect(registerRows(CHECKS)).toEqual([
      ['1041', ...plain, '88.75', 'good', ''],
      ['1042', ...plain, '116.50', 'void', 'void March 2, 2026, written anew as 1050: lost in the post'],
      ['1043', ...plain, '58.25', 'void', 'void March 2, 2026: misprinted'],
      ['1050', ...plain, '116.50', 'good', 'in place of 1042'],
    ]);
  });
});

describe('the stub of a check', () => {
  // 100.00 less 6 %: 94.00, two parts to one.
  const partner = (personId: string, parts: number) => ({ personId, memberUntil: '2026-12-31', parts });
  const lots = [lot('1', { count: 10 })];
  const outcomes = [sold('1', '10.00')];
  const sheetOf = (...partners: ReturnType<typeof partner>[]) =>
    settlementSheet(
      sellerFile({ people: [person('P1'), person('P2')], seller: seller(2, { partners }), lots, outcomes }),
      STAMP,
    );
  const stubOf = (one: CheckEntry, sheet: ReturnType<typeof sheetOf>, earlier: readonly EarlierPayment[] = []) =>
    checkStub(GROUND, { check: one, sheet, earlier });
  const rowsOf = (paper: ListPaper) => tableOf(paper).rows.map((row) => row.map(({ words }) => words));

  it('goes from the sheet’s sum to the share and to the check', () => {
    const stub = stubOf(check(1041, '62.67'), sheetOf(partner('P1', 2), partner('P2', 1)));
    const rows = rowsOf(stub);
    expect(rows.slice(-3)).toEqual([
      [expect.any(String), '94.00'],
      ['Your share, 2 of 3 parts', '62.67'],
      ['This check', '62.67'],
    ]);
    expect(rows.filter(([label]) => label?.startsWith('less '))).toEqual([[expect.any(String), '6.00']]);
    expect(stub.opening).toEqual(['Check 1041 of 62.67 USD to Ada Birch, for sheet 7 of seller number 2.']);
  });

  it('has the share of the partner to whom the check is written, and where they live', () => {
    const toOther = check(1042, '31.33', { personId: 'P2', name: 'Bea Cole', street: '1 Mill Road' });
    const stub = stubOf(toOther, sheetOf(partner('P1', 2), partner('P2', 1)));
    expect(rowsOf(stub)).toContainEqual(['Your share, 1 of 3 parts', '31.33']);
    expect(stub).toMatchObject({
      number: { label: 'Check', words: '1042' },
      parties: [{ title: 'Bea Cole', sentences: ['1 Mill Road'] }],
      tables: [{ title: 'Sheet 7' }],
    });
  });

  it('of the only partner has no share, and says where it stands in for another', () => {
    const stub = stubOf(check(1050, '94.00', { replaces: 1042 }), sheetOf(partner('P1', 1)));
    expect(
      rowsOf(stub)
        .slice(-2)
        .map(([, words]) => words),
    ).toEqual(['94.00', '94.00']);
    expect(rowsOf(stub).some(([label]) => label?.startsWith('Your share'))).toBe(false);
    expect(stub.opening.at(-1)).toBe('This check is in place of 1042');
  });

  it('of a further check lists what was paid before it, and says what is left', () => {
    const paid = { direction: 'out', personId: 'P1', paidOn: '2026-02-28' } as const;
    const earlier: EarlierPayment[] = [
      { ...paid, paymentId: 1, method: 'check', reference: 'Check 1041', amountCents: money('40.00') },
      { ...paid, paymentId: 2, method: 'cash', reference: '', amountCents: money('4.00') },
      { ...paid, paymentId: 3, method: 'cash', reference: '', amountCents: money('31.33'), personId: 'P2' },
    ];
    // 62.67 − 40.00 − 4.00 − 10.00; what the other partner had is not theirs.
    const stub = stubOf(check(1051, '10.00'), sheetOf(partner('P1', 2), partner('P2', 1)), earlier);
    expect(rowsOf(stub).slice(-5)).toEqual([
      ['Your share, 2 of 3 parts', '62.67'],
      ['less check 1041, February 28, 2026', '40.00'],
      ['less cash, February 28, 2026', '4.00'],
      ['This check', '10.00'],
      ['Left to pay', '8.67'],
    ]);
    expect(rowsOf(stubOf(check(1051, '18.67'), sheetOf(partner('P1', 2), partner('P2', 1)), earlier)).at(-1)).toEqual([
      ...['Left to pay', '0.00'],
    ]);
  });
});

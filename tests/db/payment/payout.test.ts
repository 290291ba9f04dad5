/** Checks, correction sheets and the close of a sale, through the door. */
import { describe, expect, it } from 'vitest';
import { checksOfSale } from '#db/payment/queries.ts';
import { closingFacts, closingsOf } from '#db/report/closing.ts';
import { issuedSheets } from '#db/settlement/sheets.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { checkNumberMistake, LAST_CHECK } from '#lib/payment/checks.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { GOODS, type Hall, openHall, rowsOf, SALE } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

/**
 * Lot 1 of seller 1 brings 100.00 (premium 5.00, tax 6.83), lot 2 of seller 2 brings 200.00 to two partners 2 to 1.
 * By hand: seller 1 gets 100.00 − 6.00 − 0.25 − 5.00 = 88.75; seller 2 are guests, as Eve is no member:
 * 200.00 − 20.00 − 0.25 − 5.00 = 174.75, in thirds 116.50 and 58.25.
 */
function soldHall(): Hall {
  const hall = openHall();
  const { saleId, must } = hall;
  must('person.enrol', { name: 'Bea Frost' });
  must('person.enrol', { name: 'Eve Žižka' });
  const partners = [
    { personId: 4, parts: 2 },
    { personId: 5, parts: 1 },
  ];
  must('seller.register', { saleId, sellerNo: 2, partners });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '20' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '10.00', buyerNo: 11 });
  return hall;
}

const issue = ({ must, saleId }: Hall) => must('settlement.issue', { saleId, sellerNo: null, seen: 2 }, 'payout');
const misheard = { lotId: 1, replacesId: 1, kind: 'sold', price: '9.00', buyerNo: 10, reason: 'misheard' } as const;
const written = ({ book, saleId }: Hall) =>
  checksOfSale(book, saleId).map(({ number, sellerNo, name, amountCents, voidedOn }) => [
    ...[number, sellerNo, name, amountCents, voidedOn === null],
  ]);

describe('check.write', () => {
  it('writes one check for each partner by their share, numbered from the start, and only once', () => {
    const hall = soldHall();
    issue(hall);
    hall.must('check.write', { saleId: 1, sellerNo: null, firstNumber: 1041, seen: 3 }, 'payout');
    expect(written(hall)).toEqual([
      [1041, 1, 'Ada Birch', 8875, true],
      [1042, 2, 'Bea Frost', 11650, true],
      [1043, 2, 'Eve Žižka', 5825, true],
    ]);
    const again = { saleId: 1, sellerNo: null, firstNumber: 1044 };
    expect(hall.refuses('check.write', again, { code: 'already' })).toContain('nothing to pay');
    expect(checkReplay(hall.book.sqlite)).toMatchObject({ ok: true });
  });

  it('refuses a number that is used up, a number without a sheet, and one whose sums have changed', () => {
    const hall = soldHall();
    const write = { saleId: 1, sellerNo: 1, firstNumber: 1041 };
    hall.refuses('check.write', write, { code: 'wrong_stage', field: 'sellerNo' });
    issue(hall);
    hall.must('check.write', { ...write, sellerNo: 2 });
    hall.refuses('check.write', { ...write, firstNumber: 1042 }, { code: 'taken', field: 'firstNumber' });
    hall.refuses('check.write', { ...write, firstNumber: 0 }, { code: 'malformed', field: 'firstNumber' });
    // The form asks the same before its question.
    const blank = hall.refuses(
      'check.write',
      { ...write, firstNumber: '10 50' as unknown as number },
      { code: 'malformed', field: 'firstNumber' },
    );
    expect(blank).toBe(checkNumberMistake('10 50'));
    expect([1, 1050, LAST_CHECK].map(checkNumberMistake)).toEqual([null, null, null]);
    expect([0, LAST_CHECK + 1, 1.5].map((number) => checkNumberMistake(number)?.slice(0, 5))).toEqual([
      'Check',
      'Check',
      'Enter',
    ]);
    hall.refuses('check.write', { ...write, sellerNo: 9 }, { code: 'unknown', field: 'sellerNo' });
    hall.refuses('check.write', { ...write, saleId: 9 }, { code: 'unknown', field: 'saleId' });
    hall.must('outcome.correct', misheard, 'block');
    const said = hall.refuses('check.write', write, { code: 'wrong_stage', field: 'sellerNo' });
    expect(said).toContain('correction sheet');
  });

  it('lets a seller wait for their buyers’ money where the sale says so', () => {
    const hall = soldHall();
    issue(hall);
    hall.must('payout.policy', { saleId: 1, sellersWait: true, statementDays: 10 });
    const write = { saleId: 1, sellerNo: 1, firstNumber: 1 };
    expect(hall.refuses('check.write', write, { code: 'wrong_stage' })).toContain('buyer 10');
    // 100.00 and 5 % premium and 6.5 % tax on both: 111.825, half up.
    hall.must('payment.record', { saleId: 1, direction: 'in', buyerNo: 10, method: 'cash', amount: '111.83' });
    hall.must('check.write', { ...write, sellerNo: null, seen: 1 });
    expect(written(hall)).toEqual([[1, 1, 'Ada Birch', 8875, true]]);
  });
});

describe('the number of a check', () => {
  it('is used once in all sales, because all are paid from one account', () => {
    const hall = soldHall();
    issue(hall);
    hall.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 7 });
    const { saleId } = hall.must('sale.plan', {
      sale: { ...SALE, name: 'Next Sale', held_on: '2027-02-27' },
      goods: GOODS,
    });
    hall.must('sale.stage', { saleId, stage: 'intake', reason: '' });
    hall.must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: 1 }] });
    hall.must('buyer.register', { saleId, buyerNo: 10, personId: 2, cleared: true });
    hall.must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    hall.must('sale.stage', { saleId, stage: 'selling', reason: '' });
    hall.must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
    hall.must('sale.stage', { saleId, stage: 'settling', reason: '' });
    hall.must('settlement.issue', { saleId, sellerNo: 1 });
    const write = { saleId, sellerNo: 1, firstNumber: 7 };
    expect(hall.refuses('check.write', write, { code: 'taken', field: 'firstNumber' })).toContain('7');
    hall.must('check.write', { ...write, firstNumber: 8 });
    hall.refuses(
      'check.reissue',
      { checkId: 1, number: 8, reason: 'lost in the post' },
      { code: 'taken', field: 'number' },
    );
  });
});

describe('check.reissue', () => {
  it('voids the lost check, writes another of the same amount, and pays nobody twice', () => {
    const hall = soldHall();
    issue(hall);
    hall.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 7 });
    const lost = { checkId: 1, number: 8, reason: 'lost in the post' };
    hall.refuses('check.reissue', { ...lost, number: 7 }, { code: 'taken', field: 'number' });
    hall.refuses('check.reissue', { ...lost, reason: ' ' }, { code: 'malformed', field: 'reason' });
    hall.refuses('check.reissue', { ...lost, checkId: 9 }, { code: 'unknown', field: 'checkId' });
    hall.must('check.reissue', lost);
    expect(written(hall)).toEqual([
      [7, 1, 'Ada Birch', 8875, false],
      [8, 1, 'Ada Birch', 8875, true],
    ]);
    expect(checksOfSale(hall.book, 1)[0]).toMatchObject({ replacedBy: 8, voidReason: 'lost in the post' });
    hall.refuses('check.reissue', { ...lost, number: 9 }, { code: 'already' });
    hall.refuses('check.write', { saleId: 1, sellerNo: 1, firstNumber: 9 }, { code: 'already' });
  });

  it('never pays more than is owed by now: it says to correct the sheet first, and then what is owed', () => {
    const hall = soldHall();
    issue(hall);
    hall.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 7 });
    hall.must('outcome.correct', misheard, 'block');
    const lost = { checkId: 1, number: 8, reason: 'lost in the post' };
    expect(hall.refuses('check.reissue', lost, { code: 'wrong_stage' })).toContain('correction sheet');
    hall.must('settlement.correct', { saleId: 1, sellerNo: 1, reason: 'misheard' });
    // 90.00 − 5.40 − 0.25 − 5.00 = 79.35 by now.
    const said = hall.refuses('check.reissue', lost, { code: 'too_large', field: 'checkId' });
    expect(said).toBe(
      'Check 7 was for $88.75, but Ada Birch is owed only $79.35 now: void it, then write a check for what is owed.',
    );
    hall.must('payment.void', { paymentId: 1, reason: 'lost in the post' });
    hall.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 8 });
    expect(written(hall).at(-1)).toEqual([8, 1, 'Ada Birch', 7935, true]);
    expect(checkReplay(hall.book.sqlite)).toMatchObject({ ok: true });
  });

  it('is written for the old amount where more is owed by now, and where buyers are still waited for', () => {
    const hall = soldHall();
    issue(hall);
    hall.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 7 });
    hall.must('outcome.correct', { ...misheard, price: '11.00' }, 'block');
    hall.must('settlement.correct', { saleId: 1, sellerNo: 1, reason: 'misheard' });
    hall.must('payout.policy', { saleId: 1, sellersWait: true, statementDays: 10 });
    hall.must('check.reissue', { checkId: 1, number: 8, reason: 'lost in the post' });
    expect(written(hall).at(-1)).toEqual([8, 1, 'Ada Birch', 8875, true]);
  });

  it('a void check can be paid anew', () => {
    const hall = soldHall();
    issue(hall);
    hall.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 7 });
    hall.must('payment.void', { paymentId: 1, reason: 'misprinted' });
    hall.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 8 });
    expect(written(hall).map(([number, , , , good]) => [number, good])).toEqual([
      [7, false],
      [8, true],
    ]);
  });
});

describe('settlement.correct', () => {
  it('issues a further sheet with before, after and what is to get back, and leaves the old one alone', () => {
    const hall = soldHall();
    issue(hall);
    hall.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 1 });
    const right = { saleId: 1, sellerNo: 1, reason: 'price misheard' };
    expect(hall.refuses('settlement.correct', right, { code: 'already' })).toContain('still right');
    hall.must('outcome.correct', misheard, 'block');
    const old = rowsOf(hall.book).settlement;
    hall.must('settlement.correct', right);
    expect(rowsOf(hall.book).settlement?.slice(0, 2)).toEqual(old);
    const [, correction] = issuedSheets(hall.book, 1).filter(({ sellerNo }) => sellerNo === 1);
    // 90.00 − 5.40 − 0.25 − 5.00 = 79.35; 88.75 was paid, so 9.40 comes back.
    expect(correction).toMatchObject({
      number: 3,
      correction: { corrects: 1, differenceCents: -940, owingCents: -940 },
    });
    expect(correction?.sheet.totals.netCents).toBe(7935);
    hall.refuses('settlement.correct', right, { code: 'already' });
    hall.refuses('settlement.correct', { ...right, sellerNo: 9 }, { code: 'unknown', field: 'sellerNo' });
    hall.refuses('settlement.correct', { ...right, saleId: 9 }, { code: 'unknown', field: 'saleId' });
    hall.refuses('settlement.correct', { ...right, reason: '' }, { code: 'malformed', field: 'reason' });
    expect(checkReplay(hall.book.sqlite)).toMatchObject({ ok: true });
  });

  it('is refused to a number without a sheet', () => {
    const hall = soldHall();
    hall.refuses('settlement.correct', { saleId: 1, sellerNo: 1, reason: 'so' }, { code: 'wrong_stage' });
  });
});

describe('the close of a sale', () => {
  it('is refused with a sentence that names what is open, and kept with its report once all is at zero', () => {
    const hall = soldHall();
    hall.must('sale.stage', { saleId: 1, stage: 'settling', reason: '' });
    const close = { saleId: 1, stage: 'closed', reason: '' } as const;
    const said = hall.refuses('sale.stage', close, { code: 'conflict', field: 'stage' });
    for (const words of ['seller 1 has no sheet', 'buyer 10 still owes 111.83', 'seller 1: 88.75 still to pay']) {
      expect(said).toContain(words);
    }
    closeSale(hall, 1);
    const [closing] = closingsOf(hall.book, 1);
    expect(closing).toMatchObject({ kind: 'closed', worker: 'Ada', report: { title: 'Closing report' } });
    const [balance] = closing?.report?.tables ?? [];
    expect(new Set(balance?.rows.map((row) => row.at(-1)?.words))).toEqual(new Set(['0 pieces', '0 lots', '0.00']));
    hall.must('sale.stage', { saleId: 1, stage: 'settling', reason: 'a check came back' });
    expect(closingsOf(hall.book, 1).at(-1)).toMatchObject({ kind: 'reopened', reason: 'a check came back' });
    expect(checkReplay(hall.book.sqlite)).toMatchObject({ ok: true });
  });

  it('waits for the drawer, and for a note where a count is short', () => {
    const hall = soldHall();
    const { must, saleId } = hall;
    const twenty = (pieces: string) => [{ denomination: '20', pieces }] as const;
    must('drawer.record', { saleId, kind: 'opened', pieces: twenty('5') });
    must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '111.83' });
    must('payment.record', { saleId, direction: 'in', buyerNo: 11, method: 'check', amount: '223.65' });
    must('sale.stage', { saleId, stage: 'settling', reason: '' });
    issue(hall);
    must('check.write', { saleId, sellerNo: null, firstNumber: 1, seen: 3 });
    for (const buyerNo of [10, 11]) must('invoice.issue', { saleId, buyerNo });
    const answered = ['lots_not_handed'] as const;
    const close = { saleId, stage: 'closed', reason: '', answered } as const;
    expect(hall.refuses('sale.stage', close, { code: 'conflict' })).toContain('drawer is open');
    // 211.83 ought to be there; ten twenties are 11.83 short.
    const short = { saleId, kind: 'closed', pieces: twenty('10') } as const;
    const said = hall.refuses('drawer.record', short, { code: 'missing', field: 'note' });
    expect(said).toContain('Cash short by 11.83');
    must('drawer.record', { saleId, kind: 'closed', pieces: twenty('10'), note: 'coins went to the kitchen' });
    const money = closingLines(closingFacts(hall.book, saleId)).find(({ name }) => name === 'money');
    // 335.48 in less 263.50 out, and 11.83 short: in the drawer lie 200.00 less the float, at the bank 223.65 − 263.50.
    expect(money).toMatchObject({ left: 6015, right: 6015, difference: 0 });
    expect(money?.leftParts.map(({ label, amount }) => [label, amount])).toEqual([
      ['As recorded', 7198],
      ['Cash short by 11.83: coins went to the kitchen', -1183],
    ]);
    expect(money?.parts[0]).toEqual({
      label: 'Cash, as counted, less the float: drawer or bank',
      amount: 10_000,
    });
    must('sale.stage', close);
  });
});

describe('payout.policy', () => {
  it('keeps the two settings, and refuses a sale that is not there and days out of bounds', () => {
    const { book, must, refuses } = openHall();
    must('payout.policy', { saleId: 1, sellersWait: true, statementDays: 14 });
    expect(rowsOf(book).sale?.[0]).toMatchObject({ sellers_wait: 1, statement_days: 14 });
    const policy = { saleId: 1, sellersWait: false, statementDays: 10 };
    refuses('payout.policy', { ...policy, saleId: 9 }, { code: 'unknown', field: 'saleId' });
    refuses('payout.policy', { ...policy, statementDays: -1 }, { code: 'malformed', field: 'statementDays' });
    openHall({ stage: 'closed' }).refuses('payout.policy', policy, { code: 'wrong_stage' });
  });
});

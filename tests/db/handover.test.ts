import { describe, expect, it } from 'vitest';
import { journalEntries } from '#db/account/queries.ts';
import { newestHandovers } from '#db/buyer/handover.ts';
import type { InputOf } from '#db/commands.ts';
import { closingsOf } from '#db/report/closing.ts';
import { checkMoney, checkReplay } from '#db/verify/verify-book.ts';
import { exportFiles, importFiles, withBook } from '#tests/support/exchange.ts';
import { openHall } from '#tests/support/hall.ts';
import { closeSale, OF_ELEVEN, paidHall } from '#tests/support/sales.ts';

/** Buyer 10 has lots 1 (12 pieces, 97.29 with premium and tax) and 2 (castor), 119.65 together, buyer 11 has lot 3. */
function sold() {
  const hall = openHall();
  const { saleId, must } = hall;
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '12' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '10' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '2.00', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '3', kind: 'sold', price: '7.25', buyerNo: 11 });
  const pay = (amount: string, answered: InputOf<'payment.record'>['answered'] = []) =>
    must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount, answered });
  const all = { saleId, buyerNo: 10, lots: ['1', '2'], pieces: '13', takenBy: 'Łucja Żak' };
  const where = () => [...newestHandovers(hall.book, saleId).values()].map(({ lotNo, kind }) => `${lotNo} ${kind}`);
  return { ...hall, pay, all, where };
}

describe('handover.record', () => {
  it('hands over what is paid, with who took it and when', () => {
    const { book, saleId, must, pay, all } = sold();
    pay('119.65');
    must('handover.record', all);
    expect(newestHandovers(book, saleId).get('1' as never)).toMatchObject({
      ...{ buyerNo: 10, kind: 'handed', takenBy: 'Łucja Żak', at: '2026-02-28T10:00:00Z', worker: 'Ada' },
    });
  });

  it('hands over as many lots as the payments cover, and no cent less', () => {
    const { must, refuses, pay, all, where } = sold();
    refuses('handover.record', { ...all, lots: ['1'], pieces: '12' }, { code: 'not_allowed', field: 'lots' });
    pay('97.28');
    expect(refuses('handover.record', { ...all, lots: ['1'], pieces: '12' }, { code: 'not_allowed' })).toContain(
      'has paid 97.28, and these lots with those taken before come to 97.29: take 0.01 first',
    );
    pay('0.01');
    must('handover.record', { ...all, lots: ['1'], pieces: '12' });
    // What was taken before counts: 97.29 are spent.
    refuses('handover.record', { ...all, lots: ['2'], pieces: '1' }, { code: 'not_allowed', field: 'lots' });
    pay('22.36');
    must('handover.record', { ...all, lots: ['2'], pieces: '1' });
    expect(where()).toEqual(['1 handed', '2 handed']);
  });

  it('lets unpaid lots go where the sale says so', () => {
    const { saleId, must, refuses, all, where } = sold();
    must('sale.handover', { saleId, unpaid: true });
    refuses('sale.handover', { saleId, unpaid: true }, { code: 'already', field: 'unpaid' });
    must('handover.record', all);
    expect(where()).toEqual(['1 handed', '2 handed']);
  });

  const { refuses, pay, all } = sold();
  pay('500.00', ['more_than_owed']);
  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ buyerNo: 99 }, 'unknown', 'buyerNo'],
    [{ lots: ['9'] }, 'unknown', 'lots'],
    [{ lots: [] }, 'missing', 'lots'],
    [{ lots: ['1', '1'] }, 'malformed', 'lots'],
    [{ lots: ['1', '3'] }, 'conflict', 'lots'],
    [{ pieces: '12' }, 'conflict', 'pieces'],
    [{ takenBy: ' ' }, 'malformed', 'takenBy'],
  ] as const)('refuses %j', (over, code, field) => {
    refuses('handover.record', { ...all, ...over }, { code, field });
  });
});

describe('a sale that is closed', () => {
  it('hands over and takes back as before, with every hold, and its report stays', () => {
    const hall = paidHall();
    const { book, must, refuses } = hall;
    closeSale(hall, 1);
    const report = closingsOf(book, 1);
    const lots = { saleId: 1, buyerNo: 11, lots: ['2'], pieces: '20', takenBy: 'Cal Dunn' } as const;
    const before = journalEntries(book, 1);
    refuses('handover.record', { ...lots, pieces: '9' }, { code: 'conflict', field: 'pieces' });
    must('handover.record', lots, 'till');
    must('handover.return', { saleId: 1, lotNo: '2', reason: 'forgot the car' }, 'till');
    expect(journalEntries(book, 1)).toEqual(before);
    // The check comes back: what is no longer paid stays here, and the fee leaves nothing that was paid.
    must('check.bounce', { paymentId: OF_ELEVEN, fee: '25.00', reason: 'no funds' }, 'payout');
    expect(refuses('handover.record', lots, { code: 'not_allowed', field: 'lots' })).toContain(
      'Buyer 11 has paid nothing for lots, and these lots',
    );
    refuses('sale.handover', { saleId: 1, unpaid: true }, { code: 'wrong_stage' });
    must('payment.record', { saleId: 1, direction: 'in', buyerNo: 11, method: 'cash', amount: '248.65' }, 'till');
    must('handover.record', lots, 'till');
    expect(closingsOf(book, 1)).toEqual(report);
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true, difference: null });
    withBook((other) => {
      importFiles(other, exportFiles(book, 1));
      expect(checkMoney(other)).toMatchObject({ ok: true, problems: [] });
    });
  });
});

describe('handover.return', () => {
  it('takes a lot back with a reason, and it can go out again', () => {
    const { saleId, must, refuses, pay, all, where } = sold();
    pay('119.65');
    refuses('handover.return', { saleId, lotNo: '1', reason: 'x' }, { code: 'not_allowed', field: 'lotNo' });
    must('handover.record', all);
    refuses('handover.record', all, { code: 'already', field: 'lots' });
    refuses('handover.return', { saleId, lotNo: '1', reason: ' ' }, { code: 'malformed', field: 'reason' });
    must('handover.return', { saleId, lotNo: '1', reason: 'the wrong bundle' });
    expect(where()).toEqual(['1 returned', '2 handed']);
    refuses('handover.return', { saleId, lotNo: '1', reason: 'again' }, { code: 'not_allowed', field: 'lotNo' });
    must('handover.record', { ...all, lots: ['1'], pieces: '12' });
    expect(where()).toEqual(['1 handed', '2 handed']);
    refuses('handover.return', { saleId, lotNo: '9', reason: 'x' }, { code: 'unknown', field: 'lotNo' });
  });
});

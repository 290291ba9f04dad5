import { describe, expect, it } from 'vitest';
import { logHead } from '#db/book/log.ts';
import type { InvoicePaper } from '#lib/invoice/model.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';

interface Row {
  readonly number: number;
  readonly buyer_id: number;
  readonly model: string;
  readonly corrects_id: number | null;
}

/** Premium 5 %, tax 6.5 %: twelve raccoons at 7.25 come to 87.00, 4.35 and 5.94 (5.93775 rounded half up), 97.29 in all. */
function twoSold() {
  const hall = openHall();
  const { saleId, must } = hall;
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '12' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
  const first = must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '4.00', buyerNo: 11 });
  const rows = () => rowsOf(hall.book).invoice as Row[];
  const models = () => rows().map(({ model }) => JSON.parse(model) as InvoicePaper);
  return { ...hall, first, rows, models };
}

describe('invoice.issue', () => {
  it('freezes what the buyer bought with the next number and the head of the log before it', () => {
    const { book, saleId, must, rows, models } = twoSold();
    must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'check', amount: '50.00', reference: '88' });
    const { seq, hash } = logHead(book);
    expect(must('invoice.issue', { saleId, buyerNo: 10, issuedOn: '2026-02-28' })).toEqual({
      ...{ invoiceId: 1, number: 1, corrects: null },
    });
    expect(rows()).toMatchObject([{ number: 1, buyer_id: 1, corrects_id: null }]);
    expect(models()[0]).toMatchObject({
      ...{ paper: 'invoice', number: 1, numberWords: 'Invoice 1', title: 'Invoice', head: { seq, hash } },
      totals: {
        amountCents: 8700,
        premiumCents: 435,
        taxCents: 594,
        totalCents: 9729,
        paidCents: 5000,
        owingCents: 4729,
      },
      result: { kind: 'owes', words: '47.29' },
      corrects: null,
    });
    must('invoice.issue', { saleId, buyerNo: 11 });
    expect(rows().map(({ number }) => number)).toEqual([1, 2]);
  });

  it('is corrected by a further one that shows before, after and the difference, and leaves the old one alone', () => {
    const { saleId, must, refuses, first, rows, models } = twoSold();
    must('invoice.issue', { saleId, buyerNo: 10 });
    const [old] = rows();
    // A payment changes no bill.
    must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '97.29' });
    refuses('invoice.issue', { saleId, buyerNo: 10 }, { code: 'already', field: 'buyerNo' });
    const right = { kind: 'sold', price: '7.00', buyerNo: 10, reason: 'misheard' } as const;
    must('outcome.correct', { lotId: first.lotId, replacesId: first.outcomeId, ...right });
    expect(must('invoice.issue', { saleId, buyerNo: 10 })).toMatchObject({ number: 2, corrects: 1 });
    expect(rows()[0]).toEqual(old);
    expect(rows()[1]).toMatchObject({ number: 2, corrects_id: 1 });
    const [, correcting] = models();
    expect(correcting?.title).toBe('Correcting invoice');
    // 84.00, 4.20 and 5.73 (5.733 rounded) make 93.93, which is 3.36 less.
    expect(correcting?.corrects).toMatchObject({
      number: 1,
      lots: [
        {
          lotNo: '1',
          what: 'changed',
          before: { words: '87.00' },
          after: { words: '84.00' },
          difference: { words: '-3.00' },
        },
      ],
      sums: [
        { label: 'Lots', difference: { words: '-3.00' } },
        { label: 'Buyer’s premium', difference: { words: '-0.15' } },
        { label: 'Sales tax', difference: { words: '-0.21' } },
        { label: 'Total', before: { words: '97.29' }, after: { words: '93.93' }, difference: { words: '-3.36' } },
      ],
    });
    expect(correcting?.result).toMatchObject({ kind: 'credit', words: '3.36' });
  });

  it('bills nothing once the lot went to somebody else, and adds what is bought later', () => {
    const { saleId, must, first, models } = twoSold();
    must('invoice.issue', { saleId, buyerNo: 10 });
    const other = { kind: 'sold', price: '7.25', buyerNo: 11, reason: 'the other card' } as const;
    must('outcome.correct', { lotId: first.lotId, replacesId: first.outcomeId, ...other });
    must('invoice.issue', { saleId, buyerNo: 10 });
    expect(models()[1]).toMatchObject({
      totals: { lots: 0, totalCents: 0 },
      corrects: { lots: [{ what: 'taken_off' }] },
    });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '1' });
    must('outcome.record', { saleId, lotNo: '3', kind: 'sold', price: '2.00', buyerNo: 10 });
    expect(must('invoice.issue', { saleId, buyerNo: 10 })).toMatchObject({ number: 3, corrects: 2 });
    expect(models()[2]?.corrects).toMatchObject({ number: 2, lots: [{ lotNo: '3', what: 'added' }] });
  });

  it('takes no tax of an exempt buyer, and is corrected when the exemption is shown later', () => {
    const { saleId, must, models } = twoSold();
    must('invoice.issue', { saleId, buyerNo: 10 });
    must('buyer.amend', { saleId, buyerNo: 10, taxExempt: true, exemptNo: 'TX-4471' });
    must('invoice.issue', { saleId, buyerNo: 10 });
    expect(models()[1]).toMatchObject({ exemptNo: 'TX-4471', totals: { taxCents: 0, totalCents: 9135 } });
    expect(models()[1]?.corrects?.remarks).toEqual(['The buyer is exempt from sales tax now: TX-4471.']);
    expect(models()[1]?.buyer.exemption).toBe('No sales tax: exemption TX-4471');
  });

  const { saleId, refuses } = twoSold();
  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ buyerNo: 99 }, 'unknown', 'buyerNo'],
    [{ buyerNo: 12 }, 'missing', 'buyerNo'],
    [{ issuedOn: 'today' }, 'malformed', 'issuedOn'],
  ] as const)('refuses %j', (over, code, field) => {
    refuses('invoice.issue', { saleId, buyerNo: 10, ...over }, { code, field });
  });

  it.each(['intake', 'closed'] as const)('refuses a sale in the stage %s', (stage) => {
    openHall({ stage }).refuses('invoice.issue', { saleId: 1, buyerNo: 10 }, { code: 'wrong_stage', field: 'saleId' });
  });
});

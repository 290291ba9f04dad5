import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { payoutSellerView } from '#db/settlement/payout.ts';
import { payoutView } from '#db/settlement/payout-view.ts';
import { newestSheets, sheetsOfSeller } from '#db/settlement/sheets.ts';
import { cents, formatMoney, negate } from '#lib/money/money.ts';
import { dueOf } from '#lib/payment/decide-payment.ts';
import { type Hall, openHall } from '#tests/support/hall.ts';

/** Seller 1 sold 10 raccoons at 10.00: 100.00 less 6 %, 0.25 and 5.00 is 88.75, and has the sheet and a check of it. */
function paidOnSheet(paid: boolean): Hall {
  const hall = openHall();
  const { must, saleId } = hall;
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
  must('settlement.issue', { saleId, sellerNo: 1 });
  if (paid) must('check.write', { saleId, sellerNo: 1, firstNumber: 501 });
  return hall;
}

function seen({ book, saleId }: Hall) {
  const sale = saleById(book, saleId);
  if (!sale) throw new Error('the sale is gone');
  const row = payoutView(book, sale).rows[0];
  const page = payoutSellerView(book, sale, { sellerNo: 1, drawnOn: '2026-03-02' });
  if (!row || !page) throw new Error('the seller is gone');
  return { row, page };
}

const corrected = (price: string) => ({
  lotId: 1,
  replacesId: 1,
  kind: 'sold',
  price,
  buyerNo: 10,
  reason: 'misheard',
});

describe('a sheet that is no longer right', () => {
  it('is said with its own sum and the one that is right, and what is owed is by the facts', () => {
    const hall = paidOnSheet(true);
    expect(seen(hall).row).toMatchObject({ state: 'paid', netCents: 8875, owingCents: 0, outdated: null });
    hall.must('outcome.correct', corrected('12.00') as never);
    // 120.00 less 7.20, 0.25 and 5.00.
    const words = 'Sheet 1 says $88.75; now $107.55. Issue a correction.';
    const { row, page } = seen(hall);
    expect(row).toMatchObject({ state: 'changed', netCents: 10_755, owingCents: 1880, outdated: { words } });
    expect(page.outdated?.words).toBe(words);
    expect(page.partners).toMatchObject([
      { words: expect.stringMatching(/107\.55.*88\.75/), due: { direction: 'out', amount: '18.80' } },
    ]);
  });

  it('says it too where the sum is the same', () => {
    const hall = paidOnSheet(false);
    const to = { saleId: hall.saleId, sellerNo: 1, how: 'deducted' } as const;
    hall.must('charge.add', { ...to, kind: 'advance', amount: '2.00', note: 'for gas' });
    hall.must('charge.add', { ...to, kind: 'adjustment', amount: '-2.00', note: 'gloves returned' });
    expect(seen(hall).row.outdated?.words ?? 'right').toMatch(
      /^Sheet 1 says \$88\.75; now the same \$88\.75, made up differently/,
    );
  });

  it('has the same sums on the list, on the seller’s page and on the correction, at any price', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 360 }), fc.boolean(), (steps, paid) => {
        fc.pre(steps !== 40);
        const hall = paidOnSheet(paid);
        hall.must('outcome.correct', corrected(formatMoney(cents(steps * 25))) as never);
        const { row, page } = seen(hall);
        hall.must('settlement.correct', { saleId: hall.saleId, sellerNo: 1, reason: 'misheard' });
        const paper = newestSheets(sheetsOfSeller(hall.book, hall.saleId, 1)).get(1);
        expect(row.outdated).toEqual(page.outdated);
        expect([row.netCents, row.owingCents]).toEqual([row.outdated?.nowCents, row.outdated?.owingCents]);
        expect(page.partners.map(({ due }) => due)).toEqual([dueOf(negate(row.owingCents))]);
        expect(paper?.sheet.totals.netCents).toBe(row.netCents);
        expect(paper?.correction?.owingCents).toBe(row.owingCents);
        const after = seen(hall);
        expect(after.row).toMatchObject({ netCents: row.netCents, owingCents: row.owingCents, outdated: null });
        hall.book.close();
      }),
      { numRuns: 12 },
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lotNo } from '#lib/lot/number.ts';
import { cents } from '#lib/money/money.ts';
import { awardLot } from '#lib/outcome/award.ts';
import type { Bid } from '#lib/sale/facts.ts';
import { lot, money } from '#tests/support/facts.ts';

const bid = (buyerNo: number, price: string, no = '1'): Bid => ({
  lotNo: lotNo(no),
  buyerNo,
  priceCents: money(price),
  receivedAt: '2026-02-28T10:00:00Z',
});

describe('awardLot', () => {
  it('gives the lot to the highest bid, at that price', () => {
    const award = awardLot(lot('1'), [bid(10, '5.00'), bid(11, '7.25'), bid(12, '7.00')]);
    expect(award).toEqual({ kind: 'awarded', buyerNo: 11, priceCents: 725 });
  });
  it('gives a tie to the earlier', () => {
    expect(awardLot(lot('1'), [bid(12, '7.25'), bid(11, '7.25')])).toMatchObject({ buyerNo: 12 });
  });
  it('waits for the seller below the minimum, and not at it', () => {
    const minimum = lot('1', { minimumCents: money('7.25') });
    expect(awardLot(minimum, [bid(10, '7.24')])).toEqual({
      kind: 'below_minimum',
      buyerNo: 10,
      priceCents: 724,
      minimumCents: 725,
    });
    expect(awardLot(minimum, [bid(10, '7.25')])).toMatchObject({ kind: 'awarded' });
  });
  it('knows a lot without a bid, and leaves the bids of other lots out', () => {
    expect(awardLot(lot('1'), [])).toEqual({ kind: 'no_bid' });
    expect(awardLot(lot('1'), [bid(10, '99.00', '2')])).toEqual({ kind: 'no_bid' });
  });

  it('agrees with putting all bids in order', () => {
    const anyBids = fc.array(
      fc.record({ buyerNo: fc.integer({ min: 1, max: 9 }), price: fc.integer({ min: 0, max: 6 }) }),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(anyBids, fc.option(fc.integer({ min: 0, max: 6 })), (bids, minimum) => {
        const written = bids.map(({ buyerNo, price }) => ({ ...bid(buyerNo, '0'), priceCents: cents(price) }));
        const one = lot('1', { minimumCents: minimum === null ? null : cents(minimum) });
        const [best] = written
          .map((own, at) => ({ ...own, at }))
          .sort((a, b) => b.priceCents - a.priceCents || a.at - b.at);
        const award = awardLot(one, written);
        if (best === undefined) expect(award).toEqual({ kind: 'no_bid' });
        else expect(award).toMatchObject({ buyerNo: best.buyerNo, priceCents: best.priceCents });
        if (best !== undefined) expect(award.kind === 'awarded').toBe(minimum === null || best.priceCents >= minimum);
      }),
    );
  });
});

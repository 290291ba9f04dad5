import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BidRow, decideRetract, standingBids } from '#lib/outcome/bid.ts';

const bid = (id: number, buyerId: number, retractsId: number | null = null): BidRow => ({ id, buyerId, retractsId });
const scene = { lotNo: '12', standing: null, rows: [bid(1, 10), bid(2, 10), bid(3, 11), bid(4, 10, 2)], bidId: 1 };

describe('taking a bid back', () => {
  it('is free until the hammer falls', () => {
    expect(decideRetract(scene)).toEqual({ ok: true, value: null });
    const refused = decideRetract({ ...scene, standing: 'passed' });
    expect(refused).toMatchObject({
      code: 'already',
      field: 'bidId',
      message: expect.stringContaining('already passed'),
    });
  });

  it('is refused for what is no bid of the lot, and for one that was taken back', () => {
    expect(decideRetract({ ...scene, bidId: 9 })).toMatchObject({ code: 'unknown' });
    expect(decideRetract({ ...scene, bidId: 4 })).toMatchObject({ code: 'unknown' });
    expect(decideRetract({ ...scene, bidId: 2 })).toMatchObject({ code: 'already' });
  });
});

describe('the bids that stand', () => {
  it.each([
    ['all of them, before one is taken back', [bid(1, 10), bid(2, 11), bid(3, 10)], [1, 2, 3]],
    ['none of its bidder before it', [bid(1, 10), bid(2, 11), bid(3, 10), bid(4, 10, 3)], [2]],
    ['a later one of its bidder', [bid(1, 10), bid(2, 10), bid(3, 10, 1)], [2]],
    ['one made after it', [bid(1, 10), bid(2, 10, 1), bid(3, 10)], [3]],
    ['nothing', [], []],
  ])('are %s', (_, rows, ids) => {
    expect(standingBids(rows).map(({ id }) => id)).toEqual(ids);
  });

  it('are never more for a bid that is taken back', () => {
    const rows = fc.array(fc.constantFrom(10, 11, 12), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(rows, fc.nat(), (buyers, which) => {
        const bids = buyers.map((buyerId, at) => bid(at + 1, buyerId));
        const gone = bids[which % bids.length];
        if (!gone) return;
        const after = standingBids([...bids, bid(bids.length + 1, gone.buyerId, gone.id)]);
        const kept = bids.filter(({ id, buyerId }) => buyerId !== gone.buyerId || id > gone.id);
        expect(after).toEqual(kept);
      }),
    );
  });
});

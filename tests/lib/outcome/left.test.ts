import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cents } from '#lib/money/money.ts';
import {
  becameOfLeft,
  decideLeft,
  type LeftBid,
  type LeftContext,
  leftBidInWords,
  leftBidMakes,
  leftBidPassedOver,
} from '#lib/outcome/left.ts';

const bid = (buyerNo: number, price: number): LeftBid => ({ buyerNo, priceCents: cents(price) });
const lot = (left: readonly LeftBid[], over: Partial<LeftContext> = {}): LeftContext => ({
  ...{ lotNo: '3', term: 'step', stepCents: cents(50), minimumCents: null, left, ...over },
});
const at = (price: number, buyerNo: number | null = 4) => ({ priceCents: cents(price), buyerNo });
/** Two bids of 16.00, of which buyer 7's was handed in first. */
const TWO = [bid(7, 1600), bid(5, 1600)];

describe('the left bid that an outcome passes over', () => {
  it.each([
    ['below it', TWO, at(1550), 7],
    ['at it, by the room', TWO, at(1600), undefined],
    ['above it', TWO, at(1650), undefined],
    ['at it, by whoever handed theirs in later', TWO, at(1600, 5), 7],
    ['at it, by whoever handed theirs in first', TWO, at(1600, 7), undefined],
    ['below the next one, by the highest themselves', [bid(7, 1600), bid(5, 1500)], at(1450, 7), 5],
    ['above the next one, by the highest themselves', [bid(7, 1600), bid(5, 1500)], at(1550, 7), undefined],
    ['below it, bought back', TWO, at(1550, null), 7],
  ] as const)('%s', (_, left, hammer, buyerNo) => {
    expect(leftBidPassedOver(lot(left), hammer)?.buyerNo).toBe(buyerNo);
  });

  it('is one that reaches the minimum where the lot stays unsold', () => {
    const unsold = { priceCents: null, buyerNo: null };
    expect(leftBidPassedOver(lot(TWO, { minimumCents: cents(1600) }), unsold)?.buyerNo).toBe(7);
    expect(leftBidPassedOver(lot(TWO, { minimumCents: cents(1625) }), unsold)).toBeUndefined();
  });
});

describe('what a left bid makes of the lot', () => {
  it.each([
    ['a step above the room', [bid(7, 1600)], {}, [1400, 1450]],
    ['no more than the bid', [bid(7, 1600)], {}, [1575, 1600]],
    ['the bid, where another is as high', TWO, {}, [1550, 1600]],
    ['a step above the next left bid', [bid(7, 1600), bid(5, 1500)], {}, [1400, 1550]],
    ['the bid, by that term', [bid(7, 1600)], { term: 'bid' }, [1400, 1600]],
    ['the bid, where prices go by no step', [bid(7, 1600)], { stepCents: cents(0) }, [1400, 1600]],
    ['the minimum at least', [bid(7, 1600)], { minimumCents: cents(1500) }, [1200, 1500]],
    ['the bid, where it is below the minimum', [bid(7, 1600)], { minimumCents: cents(1700) }, [1200, 1600]],
    ['the first step without a bid in the room', [bid(7, 1600)], {}, [null, 50]],
  ] as const)('%s', (_, left, over, [room, makes]) => {
    const [first] = left;
    expect(leftBidMakes(lot(left, over), first, room === null ? null : cents(room))).toBe(makes);
  });
});

describe('the question', () => {
  it('names the bid and what it makes, and is asked once', () => {
    expect(decideLeft(lot(TWO), at(1550), [])).toEqual({
      ok: false,
      code: 'needs_answer',
      field: 'left_bid',
      message:
        'Buyer 7 left a bid of 16.00 on lot 3, handed in before another of the same price. By the terms they have it at 16.00. Is it sold to buyer 4 at 15.50 all the same?',
    });
    expect(decideLeft(lot(TWO), at(1550), ['left_bid'])).toEqual({ ok: true, value: ['left_bid'] });
    expect(decideLeft(lot(TWO), at(1650), ['left_bid'])).toEqual({ ok: true, value: [] });
  });

  it('holds that nothing goes below a standing higher left bid without an answer', () => {
    const price = fc.integer({ min: 1, max: 3000 });
    const bids = fc.array(fc.record({ buyerNo: fc.integer({ min: 1, max: 5 }), priceCents: price }), { maxLength: 6 });
    fc.assert(
      fc.property(bids, price, fc.integer({ min: 1, max: 7 }), (some, hammer, buyerNo) => {
        const left = [...some].sort((a, b) => b.priceCents - a.priceCents) as LeftBid[];
        const decided = decideLeft(lot(left), { priceCents: cents(hammer), buyerNo }, []);
        const higher = left.some((one) => one.buyerNo !== buyerNo && one.priceCents > hammer);
        if (higher) expect(decided.ok).toBe(false);
        for (const one of left) expect(leftBidMakes(lot(left), one, cents(hammer))).toBeLessThanOrEqual(one.priceCents);
      }),
    );
  });
});

describe('in words', () => {
  it('says which applies when the lot comes up', () => {
    expect(leftBidInWords(lot([]))).toBe('');
    expect(leftBidInWords(lot(TWO))).toBe('buyer 7 up to 16.00, who has it at 16.00 without a bid in the room');
  });

  it.each([
    [{ takerNo: 7, priceCents: 1450 }, 'took the lot at 14.50'],
    [{ takerNo: 4, priceCents: 1700 }, 'outbid: sold at 17.00'],
    [{ takerNo: 5, priceCents: 1600 }, 'an equal bid took it at 16.00'],
    [{ takerNo: 4, priceCents: 1550 }, 'passed over: sold to buyer 4 at 15.50'],
    [{ kind: 'passed', takerNo: null, priceCents: null }, 'no-sale'],
    [{ kind: 'bought_back', takerNo: null, priceCents: 1700 }, 'bought back by its seller at 17.00'],
  ] as const)('says what became of it: %j', (over, words) => {
    const called = { kind: 'sold', buyerNo: 7, bidCents: cents(1600), ...over } as Parameters<typeof becameOfLeft>[0];
    expect(becameOfLeft(called)).toBe(words);
  });
});

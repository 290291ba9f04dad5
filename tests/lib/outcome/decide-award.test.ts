import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lotNo } from '#lib/lot/number.ts';
import { cents } from '#lib/money/money.ts';
import { decideAwards } from '#lib/outcome/award.ts';
import type { Bid } from '#lib/sale/facts.ts';

const open = fc.uniqueArray(
  fc.record({
    lotNo: fc.integer({ min: 1, max: 12 }).map((number) => lotNo(String(number))),
    minimumCents: fc.option(fc.integer({ min: 1, max: 8 }).map(cents)),
    onHold: fc.boolean(),
  }),
  { selector: (lot) => lot.lotNo },
);
// Few prices and few buyers, so that ties and minimums that are just met are common.
const bid: fc.Arbitrary<Bid> = fc.record({
  lotNo: fc.integer({ min: 1, max: 12 }).map((number) => lotNo(String(number))),
  buyerNo: fc.integer({ min: 1, max: 5 }),
  priceCents: fc.integer({ min: 1, max: 9 }).map(cents),
  receivedAt: fc.constant(''),
});

describe('awarding a sale of written bids', () => {
  it('gives each lot to the bid that no other beats, found by comparing every pair', () => {
    fc.assert(
      fc.property(open, fc.array(bid, { maxLength: 60 }), (lots, bids) => {
        const decided = decideAwards({ stage: 'selling', bidding: 'sealed', open: lots, bids });
        if (!decided.ok) throw new Error(decided.message);
        for (const [at, { lotNo: no, award }] of decided.value.entries()) {
          const lot = lots[at];
          const own = bids.filter((one) => one.lotNo === no);
          // By brute force: nobody bid more, and nobody bid as much before.
          const winner = own.find(
            (one, place) =>
              !own.some(
                (other, before) =>
                  other.priceCents > one.priceCents || (other.priceCents === one.priceCents && before < place),
              ),
          );
          const enough = winner && (lot?.minimumCents == null || winner.priceCents >= lot.minimumCents);
          const ought = lot?.onHold ? 'on_hold' : !winner ? 'no_bid' : enough ? 'awarded' : 'below_minimum';
          expect(award.kind).toBe(ought);
          if (winner && !lot?.onHold)
            expect(award).toMatchObject({ buyerNo: winner.buyerNo, priceCents: winner.priceCents });
        }
      }),
    );
  });

  it.each([
    ['floor', 'selling', 'not_allowed'],
    ['sealed', 'intake', 'wrong_stage'],
    ['sealed', 'closed', 'wrong_stage'],
  ] as const)('is refused at a %s sale in the stage %s', (bidding, stage, code) => {
    expect(decideAwards({ stage, bidding, open: [], bids: [] })).toMatchObject({ ok: false, code });
  });
});

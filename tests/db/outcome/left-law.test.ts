import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { leftView } from '#db/outcome/bids.ts';
import { assertUntilSeen } from '#tests/support/assert-until-seen.ts';
import { openHall } from '#tests/support/hall.ts';

const act = fc.record({
  does: fc.constantFrom('leave', 'leave', 'leave', 'leave', 'retract', 'sell', 'sell', 'pass'),
  lotNo: fc.constantFrom('1', '2', '3'),
  buyerNo: fc.constantFrom(10, 11),
  // Few prices and times, so that ties and the minimum of 7.00 are common.
  price: fc.constantFrom('6.00', '7.00', '8.00'),
  handedIn: fc.constantFrom(undefined, '08:00', '09:00'),
  bidId: fc.integer({ min: 1, max: 6 }),
  yes: fc.boolean(),
});
type Act = typeof act extends fc.Arbitrary<infer T> ? T : never;

function worked(acts: readonly Act[]) {
  const hall = openHall();
  const { saleId, must, give } = hall;
  for (const minimum of ['', '7.00', '7.00'])
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2', minimum });
  for (const { does, lotNo, buyerNo, price, handedIn, bidId, yes } of acts) {
    const answered = yes ? (['left_bid', 'below_minimum'] as const) : (['below_minimum'] as const);
    const handedInAt = handedIn && { handedInAt: `2026-02-28T${handedIn}:00Z` };
    if (does === 'leave') give('bid.leave', { saleId, lotNo, buyerNo, kind: 'left', price, ...handedInAt });
    else if (does === 'retract') give('bid.retract', { bidId });
    else if (does === 'sell')
      give('outcome.record', { saleId, lotNo, kind: 'sold', price, buyerNo, answered }, { station: 'block' });
    else give('outcome.record', { saleId, lotNo, kind: 'passed', answered }, { station: 'block' });
  }
  return hall;
}

interface Row {
  readonly id: number;
  readonly lotId: number;
  readonly buyerId: number;
  readonly cents: number;
  readonly at: string;
  readonly takesBack: number | null;
}

const WANTED = ['passed over', 'not passed over', 'by its time', 'unsold'];
const seen = new Set<string>();

describe('every history of left bids', () => {
  it('passes none over without the answer, by price and then by the time handed in, and tells what became of each', () => {
    assertUntilSeen(
      fc.property(fc.array(act, { minLength: 12, maxLength: 30 }), (acts) => {
        const { book, saleId } = worked(acts);
        const rows = book.sqlite
          .prepare(
            'SELECT id, lot_id AS lotId, buyer_id AS buyerId, price_cents AS cents, received_at AS at, retracts_id AS takesBack FROM bid ORDER BY id',
          )
          .all() as Row[];
        const counting = rows.filter(
          (bid) =>
            bid.takesBack === null &&
            !rows.some(
              ({ takesBack, lotId, buyerId }) =>
                takesBack !== null && takesBack >= bid.id && lotId === bid.lotId && buyerId === bid.buyerId,
            ),
        );
        const outcomes = book.sqlite
          .prepare(
            'SELECT o.lot_id AS lotId, o.buyer_id AS buyerId, o.price_cents AS cents, o.remarks, l.minimum_cents AS least FROM outcome o JOIN lot l ON l.id = o.lot_id',
          )
          .all() as {
          lotId: number;
          buyerId: number | null;
          cents: number | null;
          remarks: string;
          least: number | null;
        }[];
        for (const { lotId, buyerId, cents, remarks, least } of outcomes) {
          const left = counting.filter((bid) => bid.lotId === lotId);
          const own = left.filter((bid) => bid.buyerId === buyerId);
          const before = (a: Row, b: Row) => b.cents - a.cents || Date.parse(a.at) - Date.parse(b.at) || a.id - b.id;
          const over = left.some((bid) => {
            if (cents === null) return bid.cents >= (least ?? 0);
            if (bid.buyerId === buyerId) return false;
            if (bid.cents > cents) return true;
            const tied = bid.cents === cents && own.length > 0 && own.every((mine) => before(bid, mine) < 0);
            if (tied) seen.add('by its time');
            return tied;
          });
          if (cents === null && over) seen.add('unsold');
          seen.add(over ? 'passed over' : 'not passed over');
          expect(remarks.includes('left_bid')).toBe(over);
        }
        const called = new Set(outcomes.map(({ lotId }) => lotId));
        const sale = saleById(book, saleId);
        const told = sale ? leftView(book, sale).called : [];
        const ended = counting.filter(({ lotId }) => called.has(lotId)).map(({ id }) => id);
        expect(told.map(({ bidId }) => bidId).sort((a, b) => a - b)).toEqual(ended);
        for (const { became } of told)
          expect(became).toMatch(/^(took the lot|outbid|an equal bid took it|passed over|no-sale)/);
      }),
      { numRuns: 15, seen, wanted: WANTED },
    );
    expect([...seen]).toEqual(expect.arrayContaining(WANTED));
  });
});

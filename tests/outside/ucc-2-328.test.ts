/**
 * Sale by auction as the Uniform Commercial Code has it in § 2-328, set beside what the book allows and refuses.
 * Sources: N.Y. U.C.C. § 2-328 and Mont. Code Ann. § 30-11-502, which have the same four paragraphs. The book keeps
 * records and gives no legal advice; where it cannot know what was said in the hall, the table says so.
 */
import { describe, expect, it } from 'vitest';
import type { InputOf } from '#db/commands.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { type Hall, openHall, rowsOf } from '#tests/support/hall.ts';

/** Three lots, of which the second is sold without reserve and the third has a minimum. */
function hallWithLots(): Hall {
  const hall = openHall();
  const lot = { saleId: hall.saleId, sellerNo: 1, goods: 'raccoon', count: '3' };
  hall.must('lot.add', lot);
  hall.must('lot.add', { ...lot, withoutReserve: true });
  hall.must('lot.add', { ...lot, minimum: '5.00' });
  return hall;
}

const sold = (lotNo: string, over: Partial<InputOf<'outcome.record'>> = {}): InputOf<'outcome.record'> => ({
  ...{ saleId: 1, lotNo, kind: 'sold', price: '7.25', buyerNo: 10 },
  ...over,
});
const outcomes = ({ book }: Hall) =>
  rowsOf(book).outcome as {
    id: number;
    lot_id: number;
    kind: string;
    price_cents: number;
    reason: string;
    remarks: string;
  }[];

describe('(1) each lot is the subject of a separate sale', () => {
  it('has an outcome of its own, in whatever order the lots are called', () => {
    const hall = hallWithLots();
    for (const lotNo of ['3', '1']) hall.must('outcome.record', sold(lotNo));
    expect(outcomes(hall).map(({ lot_id }) => lot_id)).toEqual([3, 1]);
    expect(saleFacts(hall.book, 1).outcomes.map(({ lotNo }) => lotNo)).toEqual(['1', '3']);
  });

  it('is not undone by what happens to another lot of the same seller or buyer', () => {
    const hall = hallWithLots();
    for (const lotNo of ['1', '3']) hall.must('outcome.record', sold(lotNo));
    const [first] = outcomes(hall);
    hall.must('outcome.correct', { lotId: 3, replacesId: 2, reason: 'misheard', kind: 'passed' });
    expect(outcomes(hall)[0]).toEqual(first);
    expect(saleFacts(hall.book, 1).outcomes).toMatchObject([
      { lotNo: '1', kind: 'sold' },
      { lotNo: '3', kind: 'passed' },
    ]);
  });
});

describe('(2) the sale is complete when the hammer falls', () => {
  it('refuses a second sale of a lot that is sold, to the same buyer or another', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', sold('1'));
    for (const buyerNo of [10, 11]) {
      const said = hall.refuses('outcome.record', sold('1', { buyerNo, price: '9.00' }), {
        code: 'already',
        field: 'lotNo',
      });
      expect(said).toContain('Lot 1 is already sold to buyer 10 at 7.25.');
    }
  });

  it('refuses to change the lot or its tags once it is sold', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', sold('1'));
    hall.refuses('lot.amend', { lotId: 1, goods: 'raccoon', count: '4', tags: [] }, { code: 'already' });
    hall.refuses('tags.set', { lotId: 1, tags: [] }, { code: 'already' });
  });

  it('keeps what was recorded: a correction is a further entry, and says why', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', sold('1'));
    const correction = { lotId: 1, replacesId: 1, kind: 'sold', price: '7.75', buyerNo: 10 } as const;
    hall.refuses('outcome.correct', { ...correction, reason: '' }, { code: 'malformed', field: 'reason' });
    hall.must('outcome.correct', { ...correction, reason: 'the clerk misheard' });
    const written = outcomes(hall).map(({ price_cents, reason }) => [price_cents, reason]);
    expect(written).toEqual([
      [725, ''],
      [775, 'the clerk misheard'],
    ]);
    expect(() => hall.book.sqlite.exec('UPDATE outcome SET price_cents = 775')).toThrow('append-only');
    expect(() => hall.book.sqlite.exec('DELETE FROM outcome')).toThrow('append-only');
  });

  it('lets the auctioneer reopen the bidding where a bid is made while the hammer falls', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', sold('1'));
    hall.must('outcome.reopen', { lotId: 1, replacesId: 1, reason: 'a bid was made as the hammer fell' });
    expect(saleFacts(hall.book, 1).outcomes).toEqual([]);
    hall.must('outcome.record', sold('1', { price: '8.00', buyerNo: 11 }));
    expect(saleFacts(hall.book, 1).outcomes).toMatchObject([{ lotNo: '1', priceCents: 800, buyerNo: 11 }]);
  });

  it('or to declare the lot sold under the bid on which the hammer was falling: then it stays as it is', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', sold('1'));
    hall.must('bid.leave', { saleId: 1, lotNo: '1', buyerNo: 11, kind: 'under', price: '8.00' });
    expect(saleFacts(hall.book, 1).outcomes).toMatchObject([{ lotNo: '1', priceCents: 725, buyerNo: 10 }]);
  });

  it('does not let a lot be reopened once the bidding of the day is over', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', sold('1'));
    hall.must('sale.stage', { saleId: 1, stage: 'settling', reason: '', left: 2 });
    hall.refuses('outcome.reopen', { lotId: 1, replacesId: 1, reason: 'a late bid' }, { code: 'wrong_stage' });
  });
});

describe('(3) a sale is with reserve unless goods are put up expressly without', () => {
  it('takes a lot as one with reserve where nothing was said', () => {
    const lots = rowsOf(hallWithLots().book).lot as { without_reserve: number; minimum_cents: number | null }[];
    expect(lots.map(({ without_reserve }) => without_reserve)).toEqual([0, 1, 0]);
  });

  it('lets goods be withdrawn before the hammer falls, and not after', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'withdrawn' });
    hall.must('outcome.record', sold('3'));
    hall.refuses('outcome.record', { saleId: 1, lotNo: '3', kind: 'withdrawn' }, { code: 'already' });
    hall.refuses('outcome.record', sold('1'), { code: 'already' });
  });

  it('charges nothing for a lot that was withdrawn', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', { saleId: 1, lotNo: '3', kind: 'withdrawn' });
    const [settlement] = settleSale(saleFacts(hall.book, 1));
    expect(settlement?.rows).toMatchObject([{ outcome: 'withdrawn', commissionCents: 0, feesCents: 0, netCents: 0 }]);
  });

  it('takes no minimum on a lot without reserve, at the table or later', () => {
    const hall = hallWithLots();
    const lot = { goods: 'raccoon', count: '3', withoutReserve: true, minimum: '5.00' };
    hall.refuses('lot.add', { saleId: 1, sellerNo: 1, ...lot }, { code: 'malformed', field: 'minimum' });
    hall.refuses('lot.amend', { lotId: 2, tags: [], ...lot }, { code: 'malformed', field: 'minimum' });
    expect(() => hall.book.sqlite.exec('UPDATE lot SET minimum_cents = 1 WHERE id = 2')).toThrow('CHECK');
  });

  it('sells a lot without reserve at any price, and asks before a lot goes below its minimum', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', sold('2', { price: '0.25' }));
    const low = sold('3', { price: '4.75' });
    hall.refuses('outcome.record', low, { code: 'needs_answer', field: 'below_minimum' });
    hall.must('outcome.record', { ...low, answered: ['below_minimum'] });
    expect(outcomes(hall).map(({ remarks }) => remarks)).toEqual(['[]', '["below_minimum"]']);
  });

  // Whether bids were called for, and whether one came in a reasonable time, only the hall knows.
  it('takes a lot without reserve as passed, which says that nobody bid', () => {
    const hall = hallWithLots();
    hall.must('outcome.record', { saleId: 1, lotNo: '2', kind: 'passed' });
    expect(outcomes(hall)).toMatchObject([{ kind: 'passed', price_cents: null }]);
  });

  it('lets a bidder take a bid back until the hammer falls, and not after', () => {
    const hall = hallWithLots();
    const bid = { saleId: 1, buyerNo: 10, kind: 'left', price: '6.00' } as const;
    const one = hall.must('bid.leave', { ...bid, lotNo: '1' });
    const three = hall.must('bid.leave', { ...bid, lotNo: '3' });
    hall.must('bid.retract', { bidId: one.bidId });
    hall.must('outcome.record', sold('3'));
    const said = hall.refuses('bid.retract', { bidId: three.bidId }, { code: 'already', field: 'bidId' });
    expect(said).toContain('only before the hammer falls');
  });

  it('does not bring an earlier bid back to life when a bid is taken back', () => {
    const hall = hallWithLots();
    const bid = { saleId: 1, lotNo: '1', buyerNo: 10, kind: 'left' } as const;
    hall.must('bid.leave', { ...bid, price: '5.00' });
    const { bidId } = hall.must('bid.leave', { ...bid, price: '6.00' });
    expect(hall.must('bid.retract', { bidId })).toMatchObject({ bidsLeft: 0 });
    expect(rowsOf(hall.book).bid).toHaveLength(3);
  });
});

describe("(4) a seller who bids on the seller's own lot", () => {
  it('is asked about: was notice given? Only then is the lot recorded as sold, and the answer stays with it', () => {
    const hall = hallWithLots();
    const own = sold('1', { buyerNo: 12 });
    const said = hall.refuses('outcome.record', own, { code: 'needs_answer', field: 'seller_buys' });
    expect(said).toMatch(/Buyer 12 is a seller of this lot\. Was it announced that the seller may bid\?/);
    hall.must('outcome.record', { ...own, answered: ['seller_buys'] });
    expect(outcomes(hall)).toMatchObject([{ remarks: '["seller_buys"]' }]);
  });

  it('is asked about where the seller is one partner of several, and in a correction too', () => {
    const hall = hallWithLots();
    hall.must('seller.register', { saleId: 1, sellerNo: 2, partners: [{ personId: 2 }, { personId: 3 }] });
    hall.must('lot.add', { saleId: 1, sellerNo: 2, goods: 'raccoon', count: '3' });
    for (const buyerNo of [10, 11]) {
      hall.refuses('outcome.record', sold('4', { buyerNo }), { code: 'needs_answer', field: 'seller_buys' });
    }
    hall.must('outcome.record', sold('4', { buyerNo: 12 }));
    const correction = {
      lotId: 4,
      replacesId: 1,
      reason: 'misheard',
      kind: 'sold',
      price: '7.25',
      buyerNo: 11,
    } as const;
    hall.refuses('outcome.correct', correction, { code: 'needs_answer', field: 'seller_buys' });
  });

  it('leaves the buyer the choice: the sale avoided, or the goods at the last bid made in good faith', () => {
    const avoided = hallWithLots();
    avoided.must('outcome.record', sold('1', { price: '9.00' }));
    const reason = 'the seller bid without notice';
    avoided.must('outcome.correct', { lotId: 1, replacesId: 1, reason, kind: 'passed' });
    const lower = hallWithLots();
    lower.must('outcome.record', sold('1', { price: '9.00' }));
    lower.must('bid.leave', { saleId: 1, lotNo: '1', buyerNo: 10, kind: 'under', price: '6.25' });
    lower.must('outcome.correct', { lotId: 1, replacesId: 1, reason, kind: 'sold', price: '6.25', buyerNo: 10 });
    expect(saleFacts(avoided.book, 1).outcomes).toMatchObject([{ kind: 'passed' }]);
    expect(saleFacts(lower.book, 1).outcomes).toMatchObject([{ kind: 'sold', priceCents: 625, buyerNo: 10 }]);
  });
});

import { describe, expect, it } from 'vitest';
import type { InputOf } from '#db/commands.ts';
import { accepted, GOODS, type Hall, openHall, SALE } from '#tests/support/hall.ts';

const ANSWER_BY = '2026-03-07T18:00:00Z';

/** A sale of written bids whose seller 1 has three lots with a minimum of 5.00 and a time until which to answer. */
function sealedHall(): Hall & { readonly sealed: number } {
  const hall = openHall();
  const { must } = hall;
  const sealed = must('sale.plan', { sale: { ...SALE, name: 'Written Sale', bidding: 'sealed' }, goods: GOODS }).saleId;
  must('sale.stage', { saleId: sealed, stage: 'intake', reason: '' });
  must('seller.register', { saleId: sealed, sellerNo: 1, partners: [{ personId: 1 }] });
  must('buyer.register', { saleId: sealed, buyerNo: 10, personId: 2, cleared: true });
  for (const _ of [1, 2, 3]) {
    must('lot.add', { saleId: sealed, sellerNo: 1, goods: 'raccoon', count: '3', minimum: '5.00' });
  }
  must('sale.stage', { saleId: sealed, stage: 'selling', reason: '' });
  must('bids.closing', { saleId: sealed, closesAt: '2026-03-01T18:00:00Z', answerBy: ANSWER_BY });
  for (const lotNo of ['1', '2'])
    must('bid.leave', { saleId: sealed, lotNo, buyerNo: 10, kind: 'written', price: '4.75' });
  accepted(hall.give('bids.award', { saleId: sealed }, { at: '2026-03-01T18:00:00Z' }));
  return { ...hall, sealed };
}

describe("a seller's answer to a bid below the minimum", () => {
  const { give, sealed } = sealedHall();
  type Call = InputOf<'outcome.record'>;
  const accepts = (over: Pick<Call, 'lotNo' | 'answered' | 'price'>): Call => ({
    ...{ saleId: sealed, kind: 'sold', price: '4.75', buyerNo: 10 },
    ...over,
  });
  const asked = (input: Call, at: string) => give('outcome.record', input, { station: 'block', at });

  it('counts at the very time that was set', () => {
    const answered = ['below_minimum'] as const;
    expect(asked(accepts({ lotNo: '1', answered }), ANSWER_BY)).toMatchObject({ ok: true });
  });

  it('is asked about a second later, and counts where the association lets it', () => {
    const late = '2026-03-07T18:00:01Z';
    const input = accepts({ lotNo: '2', answered: ['below_minimum'] });
    expect(asked(input, late)).toMatchObject({
      ...{ ok: false, code: 'needs_answer', field: 'answer_late' },
      message: expect.stringContaining('ended on Mar 7, 2026, 6:00 PM UTC'),
    });
    expect(asked({ ...input, answered: ['answer_late', 'below_minimum'] }, late)).toMatchObject({ ok: true });
  });

  it('is told its time as the hall has it', () => {
    const hall = sealedHall();
    hall.must('association.set', { name: 'Lantern Ridge', timeZone: 'Pacific/Honolulu' });
    const input = { ...accepts({ lotNo: '2', answered: ['below_minimum'] }), saleId: hall.sealed };
    expect(hall.give('outcome.record', input, { station: 'block', at: '2026-03-08T09:00:00Z' })).toMatchObject({
      message: expect.stringMatching(/ended on Mar 7, 2026, 8:00 AM(?! UTC)/),
    });
  });

  it('is not asked about where the lot is kept, and is none at a bid that nobody made', () => {
    const late = '2026-03-09T10:00:00Z';
    const noBid = { code: 'not_allowed', message: 'Lot 3 has no bid: record the no-sale.' };
    expect(asked(accepts({ lotNo: '3', price: '5.00' }), late)).toMatchObject(noBid);
    expect(asked({ saleId: sealed, lotNo: '3', kind: 'passed' }, late)).toMatchObject({ ok: true });
    expect(asked({ saleId: sealed, lotNo: '1', kind: 'passed' }, late)).toMatchObject({ code: 'already' });
    const hall = sealedHall();
    const wrong = { ...accepts({ lotNo: '1', answered: ['below_minimum'], price: '4.50' }), saleId: hall.sealed };
    expect(hall.give('outcome.record', wrong, { station: 'block', at: ANSWER_BY })).toMatchObject({
      ...{ code: 'not_allowed', field: 'buyerNo' },
      message: 'The best bid on lot 1 is that of buyer 10 at 4.75: sell it by that bid.',
    });
  });
});

import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { buyerView } from '#db/buyer/queries.ts';
import { calledLots, glance } from '#db/outcome/called.ts';
import { pricedSeasons } from '#db/price/season-prices.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { placeOfTag } from '#db/tag/queries.ts';
import { saleBalance } from '#lib/report/balance.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { bobcatTag, openHall, rowsOf } from '#tests/support/hall.ts';

/** Buyer 10 has lots 1, 2 and 3, buyer 11 lot 4; lot 3 is a bobcat with its tag. */
function bought() {
  const hall = openHall();
  const { saleId, must } = hall;
  for (const count of ['10', '4']) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count });
  const tags = [{ ...bobcatTag(101), condition: 'intact' }] as const;
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '5' });
  for (const [lotNo, price, buyerNo] of [
    ['1', '7.25', 10],
    ['2', '6.00', 10],
    ['3', '300.00', 10],
    ['4', '5.00', 11],
  ] as const) {
    must('outcome.record', { saleId, lotNo, kind: 'sold', price, buyerNo });
  }
  const sale = saleById(hall.book, saleId);
  if (!sale) throw new Error('the sale is gone');
  const said = { saleId, buyerNo: 10, fate: 'seller', reason: 'the check came back' } as const;
  const unpaid = (lots: string[], over: object = {}) => must('outcome.unpaid', { ...said, lots, ...over }, 'till');
  return { ...hall, sale, said, unpaid };
}

// Common practice, no source: the seller does not pay for a buyer who does not.
describe('outcome.unpaid', () => {
  it('takes the lot off the bill, spares its seller, and keeps what was bid and why', () => {
    const { book, saleId, sale, unpaid } = bought();
    const before = settleSale(saleFacts(book, saleId))[0];
    unpaid(['1']);
    const row = { kind: 'unpaid', price_cents: 725, buyer_id: 1, fate: 'seller', reason: 'the check came back' };
    expect(rowsOf(book).outcome?.at(-1)).toMatchObject({ ...row, replaces_id: 1 });
    const facts = saleFacts(book, saleId);
    const [after] = settleSale(facts);
    // 72.50 less 4.35 of commission and 0.25 of lot fee was in the net for it.
    expect((before?.netCents ?? 0) - (after?.netCents ?? 0)).toBe(7250 - 435 - 25);
    expect(after).toMatchObject({ lotsSold: 3, grossCents: 2400 + 30_000 + 2500, noSaleFeesCents: 0 });
    expect(saleBalance(facts).map(({ difference }) => difference)).toEqual([0, 0, 0, 0]);
    // 324.00 of lots, 5 % premium, 6.5 % of tax on 340.20: 22.11 (rounded half up from 22.113).
    expect(buyerView(book, sale, 10)).toMatchObject({
      ...{ lots: 2, totalCents: 34_020 + 2211, owingCents: 34_020 + 2211, here: ['2', '3'] },
      unpaid: [{ lotNo: '1', price: '7.25 each', fate: 'back to the seller', reason: 'the check came back' }],
    });
  });

  it('is shown as what it is, its price is no price, and it is not to be called', () => {
    const { book, saleId, unpaid } = bought();
    unpaid(['1', '2'], { fate: 'association' });
    expect(calledLots(book, saleId, 1)[0]).toMatchObject({
      lotNo: '2',
      kind: 'unpaid',
      fate: 'association',
      amountCents: 0,
    });
    expect(glance(book, saleId, 4)).toMatchObject({ sold: 2, unpaid: 2, left: 0, total: '325.00' });
    expect(pricedSeasons(book, 1)[0]?.goods.find(({ goods }) => goods === 'raccoon')?.range).toMatchObject({
      lots: 1,
      unsold: 0,
    });
  });

  it('opens a lot that is offered again, as one that is reopened, with both rows kept', () => {
    const { book, saleId, must, unpaid, refuses, said } = bought();
    unpaid(['2'], { fate: 'again' });
    expect(rowsOf(book).outcome?.slice(-2)).toMatchObject([
      { kind: 'unpaid', fate: 'again', buyer_id: 1, replaces_id: 2 },
      { kind: 'reopened', fate: null, buyer_id: null, replaces_id: 5 },
    ]);
    expect(glance(book, saleId, 4)).toMatchObject({ sold: 3, unpaid: 0, left: 1 });
    must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '5.50', buyerNo: 11 });
    must('sale.stage', { saleId, stage: 'settling', reason: '' });
    refuses('outcome.unpaid', { ...said, lots: ['1'], fate: 'again' }, { code: 'wrong_stage', field: 'fate' }, 'till');
  });

  it('makes the issued invoice untrue, and the correcting one has the lot no more', () => {
    const { book, saleId, sale, must, unpaid } = bought();
    must('invoice.issue', { saleId, buyerNo: 10 });
    unpaid(['1', '2', '3']);
    expect(buyerView(book, sale, 10)?.invoice).toMatchObject({ number: 1, stillTrue: false });
    must('invoice.issue', { saleId, buyerNo: 10 });
    expect(buyerView(book, sale, 10)?.invoice).toMatchObject({ number: 2, stillTrue: true, totalCents: 0 });
  });

  it('is put right at the Block where the buyer pays after all', () => {
    const { book, must, unpaid } = bought();
    const [one] = unpaid(['1']).outcomes;
    const sold = { kind: 'sold', price: '7.25', buyerNo: 10, reason: 'came with cash' } as const;
    must('outcome.correct', { lotId: 1, replacesId: one?.outcomeId ?? 0, ...sold });
    expect(rowsOf(book).outcome?.at(-1)).toMatchObject({ kind: 'sold', buyer_id: 1, fate: null });
  });

  it('leaves the tags as they are: with a piece that goes back they may come again, with one that is kept not', () => {
    const home = bought();
    const before = rowsOf(home.book).tag;
    home.unpaid(['3']);
    expect(rowsOf(home.book).tag).toEqual(before);
    expect(placeOfTag(home.book, bobcatTag(101).tag)).toMatchObject({ wentHome: true });
    const kept = bought();
    kept.unpaid(['3'], { fate: 'association' });
    expect(placeOfTag(kept.book, bobcatTag(101).tag)).toMatchObject({ wentHome: false });
  });

  it('takes a tagged lot although a tag of it broke after the hammer', () => {
    const { book, saleId, must, unpaid } = bought();
    must('tag.mend', { saleId, lotNo: '3', ...bobcatTag(101), found: 'broken', replacement: '', reason: 'cut' });
    unpaid(['3']);
    expect(rowsOf(book).outcome?.at(-1)).toMatchObject({ kind: 'unpaid', lot_id: 3 });
  });

  it('refuses lots that left the hall, lots of others, a buyer who owes nothing, and what says nothing', () => {
    const { saleId, must, refuses, said } = bought();
    const refused = (
      over: object,
      code: 'conflict' | 'not_allowed' | 'unknown' | 'missing' | 'malformed',
      field: string,
    ) => refuses('outcome.unpaid', { ...said, lots: ['1'], ...over }, { code, field }, 'till');
    refused({ lots: ['1', '4'] }, 'conflict', 'lots');
    refused({ lots: ['99'] }, 'conflict', 'lots');
    refused({ lots: [] }, 'missing', 'lots');
    refused({ buyerNo: 99 }, 'unknown', 'buyerNo');
    refused({ reason: ' ' }, 'malformed', 'reason');
    must('sale.handover', { saleId, unpaid: true });
    must('handover.record', { saleId, buyerNo: 10, lots: ['1'], pieces: '10', takenBy: 'a driver' });
    expect(refused({ lots: ['2', '1'] }, 'not_allowed', 'lots')).toContain('Lot 1 has left the hall');
    const paid = { saleId, direction: 'in', buyerNo: 11, method: 'cash', amount: '27.96' } as const;
    must('payment.record', paid);
    refused({ buyerNo: 11, lots: ['4'] }, 'not_allowed', 'buyerNo');
  });
});

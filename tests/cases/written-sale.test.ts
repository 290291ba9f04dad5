/**
 * A written sale worked by hand: twelve lots and five bidders, with ties, a lot below its minimum that is accepted and
 * one that is kept, a retraction, a late sheet, one typed after the closing, a moved bid, the seller's own bid, a buyer
 * who is not cleared, a limit and a misplaced decimal point. The sums are those of docs/exchange.md by their numbers.
 */
import { describe, expect, it } from 'vitest';
import { saleFacts } from '#db/sale/facts.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { formatMoney } from '#lib/money/money.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { at, writtenHall } from '#tests/db/support/written-hall.ts';

const hall = writtenHall();
const { book, saleId, must, mustAt, when, view, lot } = hall;

/** Lots 1 to 4 and 10 are seller 1's, the others seller 2's; 5 is castor by the ounce. */
lot(1, '10');
lot(1, '4', '6.00');
lot(1, '3', '8.00');
lot(1, '5', '9.00');
must('lot.add', { saleId, sellerNo: 2, goods: 'castor', weight: '7.35' });
for (const count of ['2', '6', '1', '8']) lot(2, count);
lot(1, '2');
for (const count of ['3', '2']) lot(2, count);
must('sale.stage', { saleId, stage: 'selling', reason: '' });
mustAt('08:00', 'bids.closing', { saleId, closesAt: at('12:00'), answerBy: at('18:00') });

/** Types one sheet at a time of the day: the bids are `lot price`. Gives back the numbers of the bids. */
function sheet(time: string, buyerNo: number, bids: readonly string[], handedIn?: string): number[] {
  return bids.map((one) => {
    const [lotNo = '', price = ''] = one.split(' ');
    const input = { saleId, lotNo, buyerNo, kind: 'written', price } as const;
    return mustAt(time, 'bid.leave', { ...input, ...(handedIn && { handedInAt: at(handedIn) }) }).bidId;
  });
}

/** Bids on lots 1 and 8 tie with buyer 11's, whose sheet came five minutes earlier and is typed later. */
const TEN = ['1 7.25', '2 6.00', '3 7.00', '4 8.00', '5 3.25', '6 9.00', '7 7.00', '8 8.50', '9 5.00', '10 9.00'];

describe('a written sale worked by hand', () => {
  it('takes bids, and names no leader to anybody', () => {
    const ten = sheet('09:20', 10, TEN, '09:10');
    // 8.50 belongs to lot 8, and 75.00 was meant as 7.50.
    const eleven = sheet('09:30', 11, ['1 7.25', '3 7.50', '5 3.50', '6 8.00', '9 8.50', '12 75.00'], '09:05');
    sheet('09:40', 12, ['10 9.50']);
    sheet('09:45', 13, ['11 10.00']);
    // Handed in with buyer 10's, typed after it: of equal times the one typed first leads.
    sheet('09:50', 14, ['2 6.00'], '09:10');
    mustAt('10:00', 'bid.move', { bidId: eleven[4] ?? 0, lotNo: '8' });
    mustAt('10:05', 'bid.retract', { bidId: ten[5] ?? 0 });
    const open = view('11:59');
    expect(open).toMatchObject({ phase: 'taking', bids: 18, questions: [], waiting: [], ended: [] });
    expect(when('11:59', 'bids.award', { saleId })).toMatchObject({ ok: false, code: 'wrong_stage' });
  });

  it('closes by the clock: a late sheet is kept, one handed in before counts, a change takes a reason', () => {
    expect(view('12:00')).toMatchObject({ phase: 'closed' });
    const late = { saleId, lotNo: '7', buyerNo: 14, kind: 'written', price: '12.00' } as const;
    expect(when('12:10', 'bid.leave', late)).toMatchObject({ code: 'missing', field: 'handedInAt' });
    sheet('12:10', 14, ['7 12.00'], '12:05');
    sheet('12:20', 14, ['12 11.00'], '11:50');
    const wild = view('12:20').questions.find(({ lotNo }) => lotNo === '12');
    expect(wild).toMatchObject({ question: 'price_unusual', buyerNo: 11, price: '75.00' });
    const takeOut = { bidId: wild?.bidId ?? 0, reason: 'the decimal point' };
    expect(when('12:25', 'bid.retract', { ...takeOut, reason: '' })).toMatchObject({
      code: 'missing',
      field: 'reason',
    });
    mustAt('12:25', 'bid.retract', takeOut);
  });

  it('awards once every question is answered', () => {
    const asked = view('12:30').questions;
    expect(asked.map(({ lotNo, buyerNo, question }) => `${lotNo} ${buyerNo} ${question}`)).toEqual([
      '10 12 seller_buys',
      '11 13 buyer_not_cleared',
      '12 14 over_limit',
    ]);
    expect(when('12:30', 'bids.award', { saleId })).toMatchObject({ code: 'needs_answer', field: 'seller_buys' });
    mustAt('12:31', 'bid.retract', { bidId: asked[0]?.bidId ?? 0, reason: 'was not announced' });
    const answered = asked.slice(1).map(({ bidId, question }) => ({ bidId, question }));
    const half = { saleId, answered: answered.slice(1) };
    expect(when('12:32', 'bids.award', half)).toMatchObject({ code: 'needs_answer', field: 'buyer_not_cleared' });
    const accept = {
      saleId,
      lotNo: '3',
      kind: 'sold',
      price: '7.50',
      buyerNo: 11,
      answered: ['below_minimum'],
    } as const;
    expect(when('12:32', 'outcome.record', accept)).toMatchObject({ code: 'wrong_stage' });
    const counts = mustAt('12:33', 'bids.award', { saleId, answered });
    expect(counts).toMatchObject({ awarded: 10, belowMinimum: 2, noBid: 0, onHold: 0 });
    const waiting = view('12:34').waiting.map(({ lotNo, price, buyerNo }) => `${lotNo} ${price} ${buyerNo}`);
    expect(waiting).toEqual(['3 7.50 11', '4 8.00 10']);
    mustAt('13:00', 'outcome.record', accept);
    // The seller of lot 4 says nothing, and by the terms that means: kept.
    expect(when('17:59', 'bids.unanswered', { saleId })).toMatchObject({ code: 'wrong_stage' });
    expect(mustAt('18:01', 'bids.unanswered', { saleId })).toMatchObject({ kept: 1, accepted: 0 });
    expect(view('18:02').phase).toBe('results');
  });

  it('tells each bidder how every bid ended', () => {
    const ends = view('18:02').ended.map(({ buyerNo, lotNo, end }) => `${buyerNo} ${lotNo} ${end}`);
    expect(ends).toEqual([
      ...['10 1 outbid', '10 2 won', '10 3 outbid', '10 4 below the minimum', '10 5 outbid', '10 6 retracted'],
      ...['10 7 won', '10 8 outbid', '10 9 won', '10 10 won'],
      ...['11 1 won', '11 3 won', '11 5 won', '11 6 won', '11 8 won', '11 12 retracted'],
      ...['12 10 retracted', '13 11 won', '14 2 outbid', '14 7 late', '14 12 won'],
    ]);
  });

  it('brings every lot, buyer and seller to the cent what was worked out by hand', () => {
    const amounts = view('18:02').called.map(({ lotNo, buyerNo, amountCents }) => [
      lotNo,
      buyerNo,
      formatMoney(amountCents),
    ]);
    expect(new Map(amounts.map(([lotNo, ...rest]) => [lotNo, rest]))).toEqual(
      new Map([
        ['1', [11, '72.50']], // 10 at 7.25
        ['2', [10, '24.00']], // 4 at 6.00
        ['3', [11, '22.50']], // 3 at 7.50, accepted
        ['4', [null, '0.00']], // kept
        ['5', [11, '25.73']], // 7.35 oz at 3.50 is 25.725, half up
        ['6', [11, '16.00']], // 2 at 8.00
        ['7', [10, '42.00']], // 6 at 7.00
        ['8', [11, '8.50']],
        ['9', [10, '40.00']], // 8 at 5.00
        ['10', [10, '18.00']], // 2 at 9.00
        ['11', [13, '30.00']], // 3 at 10.00
        ['12', [14, '22.00']], // 2 at 11.00
      ]),
    );
    const facts = saleFacts(book, saleId);
    const invoices = buyerAccounts(facts).map(
      ({ buyerNo, invoice: { amountCents, premiumCents, taxCents, totalCents } }) => [
        buyerNo,
        ...[amountCents, premiumCents, taxCents, totalCents].map(formatMoney),
      ],
    );
    // Sum 8: 5 % of each lot, 6.5 % of all. 11: 3.63 + 1.13 + 1.29 + 0.80 + 0.43; 152.51 is taxed 9.91315.
    expect(invoices).toEqual([
      [10, '124.00', '6.20', '8.46', '138.66'],
      [11, '145.23', '7.28', '9.91', '162.42'],
      [12, '0.00', '0.00', '0.00', '0.00'],
      [13, '30.00', '1.50', '2.05', '33.55'],
      [14, '22.00', '1.10', '1.50', '24.60'],
    ]);
    // Sums 3 to 6. Seller 1: 4.35 + 1.44 + 1.35 + 1.08, five lots at 0.25, 1.00 and 2 % of 45.00 for the no-sale.
    // Seller 2: 1.54 + 0.96 + 2.52 + 0.51 + 2.40 + 1.80 + 1.32, seven lots at 0.25.
    const nets = settleSale(facts).map(({ sellerNo, grossCents, commissionCents, netCents }) => [
      sellerNo,
      ...[grossCents, commissionCents, netCents].map(formatMoney),
    ]);
    expect(nets).toEqual([
      [1, '137.00', '8.22', '120.63'],
      [2, '184.23', '11.05', '166.43'],
    ]);
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true });
  });
});

/**
 * A written sale worked by hand: twelve lots and five bidders, with ties, a lot below its minimum that is accepted and
 * one that is kept, a retraction, a late sheet, one typed after the closing, a moved bid, the seller's own bid, a buyer
 * who is not cleared, a limit and a misplaced decimal point. The sums are those of docs/exchange.md by their numbers.
 */
import { describe, expect, it } from 'vitest';
import { checkReplay } from '#db/verify/verify-book.ts';
import { at } from '#tests/db/support/written-hall.ts';
import { type BidSheet, cameOut, SHEETS, twelveLots, WRITTEN } from './worked-bids.ts';

const { book, saleId, mustAt, when, view } = twelveLots();
mustAt('08:00', 'bids.closing', { saleId, closesAt: at('12:00'), answerBy: at('18:00') });

/** Types one sheet at a time of the day, and gives back the numbers of its bids. */
function sheet(time: string, { buyerNo, handedIn, bids }: BidSheet): number[] {
  return bids.map((one) => {
    const [lotNo = '', price = ''] = one.split(' ');
    const input = { saleId, lotNo, buyerNo, kind: 'written', price } as const;
    return mustAt(time, 'bid.leave', { ...input, handedInAt: at(handedIn) }).bidId;
  });
}

describe('a written sale worked by hand', () => {
  it('takes bids, and names no leader to anybody', () => {
    const ten = sheet('09:20', SHEETS.ten);
    const eleven = sheet('09:30', SHEETS.eleven);
    sheet('09:40', SHEETS.twelve);
    sheet('09:45', SHEETS.thirteen);
    sheet('09:50', SHEETS.fourteen);
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
    sheet('12:10', SHEETS.late);
    sheet('12:20', SHEETS.inTime);
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
    expect(ends).toEqual(WRITTEN.ends);
  });

  it('brings every lot, buyer and seller to the cent what was worked out by hand', () => {
    const { lots, invoices, nets } = WRITTEN;
    expect(cameOut(book, saleId)).toEqual({ lots, invoices, nets });
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true });
  });
});

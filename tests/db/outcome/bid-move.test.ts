import { describe, expect, it } from 'vitest';
import { at, writtenHall } from '#tests/db/support/written-hall.ts';

const bidOn = (lotNo: string, price: string, buyerNo = 10) => ({ lotNo, price, buyerNo, kind: 'written' }) as const;

function started() {
  const hall = writtenHall();
  const { saleId, must, lot, mustAt } = hall;
  for (const count of ['2', '3', '4']) lot(2, count);
  must('sale.stage', { saleId, stage: 'selling', reason: '' });
  const leave = (time: string, bid: ReturnType<typeof bidOn>) => mustAt(time, 'bid.leave', { saleId, ...bid }).bidId;
  return { ...hall, leave };
}

describe('bid.move', () => {
  const { saleId, mustAt, when, view, leave, refuses } = started();
  const low = leave('09:00', bidOn('1', '5.00'));
  const high = leave('09:05', bidOn('1', '9.00'));
  const left = mustAt('09:06', 'bid.leave', { saleId, ...bidOn('3', '2.00'), kind: 'left' }).bidId;

  it('moves the bid with its time, and leaves what the bidder bid on the wrong lot before', () => {
    mustAt('10:00', 'bid.move', { bidId: high, lotNo: '2' });
    const [one, two] = view('10:00').lots;
    expect(one?.bids[10]).toMatchObject({ bidId: low, price: '5.00' });
    expect(two?.bids[10]).toMatchObject({ price: '9.00', handedIn: 'Mar 28, 2026, 9:05 AM UTC' });
  });

  it.each([
    ['a bid that was moved already', { bidId: high, lotNo: '3' }, 'already', 'bidId'],
    ['a bid that is not there', { bidId: 999, lotNo: '3' }, 'unknown', 'bidId'],
    ['a lot that is not there', { bidId: low, lotNo: '99' }, 'unknown', 'lotNo'],
    ['the lot that it is on', { bidId: low, lotNo: '1' }, 'malformed', 'lotNo'],
    ['a left bid', { bidId: left, lotNo: '1' }, 'not_allowed', 'bidId'],
  ] as const)('refuses %s', (_, input, code, field) => {
    refuses('bid.move', input, { code, field });
  });

  it('is a correction with a reason once the bids are closed, and over once the lots are awarded', () => {
    mustAt('11:00', 'bids.close', { saleId });
    expect(when('11:01', 'bid.move', { bidId: low, lotNo: '3' })).toMatchObject({ code: 'missing', field: 'reason' });
    const { bidId } = mustAt('11:02', 'bid.move', { bidId: low, lotNo: '3', reason: 'typed a row too high' });
    mustAt('11:03', 'bids.award', { saleId });
    const again = when('11:04', 'bid.move', { bidId, lotNo: '1', reason: 'no' });
    expect(again).toMatchObject({ code: 'wrong_stage', field: 'bidId' });
  });
});

describe('bids.close', () => {
  it('closes once, only written bids, and only while the sale is being sold', () => {
    const { saleId, mustAt, when, leave, refuses } = started();
    refuses('bids.close', { saleId: 1 }, { code: 'not_allowed', field: 'saleId' });
    mustAt('11:00', 'bids.close', { saleId });
    expect(when('11:01', 'bids.close', { saleId })).toMatchObject({ code: 'already', field: 'saleId' });
    expect(() => leave('11:01', bidOn('1', '5.00'))).toThrow('Enter when this sheet was handed in');
  });
});

describe('bids.unanswered', () => {
  it.each([
    ['kept', { kept: 1, accepted: 0 }, 'passed'],
    ['accepted', { kept: 0, accepted: 1 }, 'sold'],
  ] as const)('does what the terms say where a seller said nothing: %s', (noAnswer, counts, kind) => {
    const { saleId, must, mustAt, when, view, lot } = writtenHall();
    lot(2, '2', '9.00');
    must('sale.stage', { saleId, stage: 'selling', reason: '' });
    must('bids.closing', { saleId, closesAt: at('12:00'), answerBy: at('18:00'), noAnswer });
    mustAt('09:00', 'bid.leave', { saleId, ...bidOn('1', '8.00') });
    expect(when('19:00', 'bids.unanswered', { saleId })).toMatchObject({ code: 'wrong_stage' });
    mustAt('12:00', 'bids.award', { saleId });
    expect(when('18:00', 'bids.unanswered', { saleId })).toMatchObject({ code: 'wrong_stage' });
    expect(mustAt('18:01', 'bids.unanswered', { saleId })).toMatchObject(counts);
    expect(view('18:02')).toMatchObject({ phase: 'results', called: [{ kind }] });
    expect(when('18:03', 'bids.unanswered', { saleId })).toMatchObject({ code: 'already', field: 'saleId' });
  });

  it('cannot know when, where no time was set', () => {
    const { saleId, mustAt, when } = started();
    mustAt('11:00', 'bids.close', { saleId });
    mustAt('11:01', 'bids.award', { saleId });
    expect(when('11:02', 'bids.unanswered', { saleId })).toMatchObject({ code: 'wrong_stage', field: 'saleId' });
  });
});

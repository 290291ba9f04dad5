import { beforeEach, describe, expect, it } from 'vitest';
import type { CommandName, InputOf } from '#db/commands.ts';
import { accepted, GOODS, type Hall, hallOf, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

let hall: Hall;
const bid = (at: string) => hall.give('bid.leave', WRITTEN(), { at, station: 'block' });
const WRITTEN = () => ({ saleId: hall.saleId, lotNo: '1', buyerNo: 10, kind: 'written', price: '7.25' }) as const;
const CLOSES = '2026-02-28T12:00:00.000Z';

beforeEach(() => {
  const { book, must } = openHall();
  const planned = must('sale.plan', { sale: { ...SALE, name: 'Written Sale', bidding: 'sealed' }, goods: GOODS });
  hall = hallOf(book, planned.saleId);
  const { saleId } = hall;
  hall.must('sale.stage', { saleId, stage: 'intake', reason: '' });
  hall.must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: 1 }] });
  hall.must('buyer.register', { saleId, buyerNo: 10, personId: 2, cleared: true });
  hall.must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3', minimum: '9.00' });
  hall.must('sale.stage', { saleId, stage: 'selling', reason: '' });
});

describe('bids.closing', () => {
  it('takes no written bid from its time on, and a later time opens them again', () => {
    hall.must('bids.closing', { saleId: hall.saleId, closesAt: CLOSES }, 'block');
    expect(bid('2026-02-28T11:59:59.999Z').ok).toBe(true);
    expect(bid(CLOSES)).toMatchObject({ code: 'missing', field: 'handedInAt' });
    hall.must('bids.closing', { saleId: hall.saleId, closesAt: null }, 'block');
    expect(bid('2026-02-28T13:00:00Z').ok).toBe(true);
  });

  it('is over once the lots were awarded: no bid comes onto a lot that waits for its seller', () => {
    bid('2026-02-28T10:00:00Z');
    hall.must('bids.close', { saleId: hall.saleId });
    expect(hall.must('bids.award', { saleId: hall.saleId })).toMatchObject({ belowMinimum: 1 });
    hall.refuses('bid.leave', WRITTEN(), { code: 'wrong_stage', field: 'price' });
    hall.refuses('bids.closing', { saleId: hall.saleId, closesAt: CLOSES }, { code: 'wrong_stage', field: 'closesAt' });
    const sale = rowsOf(hall.book).sale?.at(-1);
    expect(sale).toMatchObject({ bids_closed_at: '2026-02-28T10:00:00Z' });
  });

  const EARLY = '2026-02-28T11:59:59.999Z';
  const block = <N extends CommandName>(command: N, input: InputOf<N>, at: string) =>
    hall.give(command, input, { at, station: 'block' });
  const ofLot = (input: Omit<InputOf<'outcome.record'>, 'saleId'>) => ({ saleId: hall.saleId, ...input });
  const ACCEPT = { lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10, answered: ['below_minimum'] } as const;

  it('lets no lot go by its bids before its time: none is accepted, passed or awarded, and one may be withdrawn', () => {
    hall.must('bids.closing', { saleId: hall.saleId, closesAt: CLOSES }, 'block');
    bid('2026-02-28T10:00:00Z');
    const before = rowsOf(hall.book);
    const says = (after: string) => ({ message: `Bids close at 12:00 PM UTC. ${after}, or move the closing time.` });
    expect(block('outcome.record', ofLot(ACCEPT), EARLY)).toMatchObject({
      ...{ ok: false, code: 'wrong_stage', field: 'lotNo' },
      ...says('Accept after that'),
    });
    expect(
      block('outcome.choice', { saleId: hall.saleId, lots: '1', price: '7.25', buyerNo: 10 }, EARLY),
    ).toMatchObject({ ok: false });
    const passed = ofLot({ lotNo: '1', kind: 'passed' });
    expect(block('outcome.record', passed, EARLY)).toMatchObject(says('Record the no-sale after that'));
    expect(block('bids.award', { saleId: hall.saleId }, EARLY)).toMatchObject({
      field: 'saleId',
      ...says('Award after that'),
    });
    expect(rowsOf(hall.book)).toEqual(before);
    const withdrawn = block('outcome.record', ofLot({ lotNo: '1', kind: 'withdrawn' }), EARLY);
    const { outcomeId: replacesId, lotId } = accepted(withdrawn);
    const { lotNo: _, ...sold } = ACCEPT;
    const correct = { lotId, replacesId, reason: 'stays after all', ...sold } as const;
    const corrected = hall.give('outcome.correct', correct, { at: EARLY, station: 'block' });
    expect(corrected).toMatchObject(says('Accept after that'));
    expect(block('bids.award', { saleId: hall.saleId }, CLOSES).ok).toBe(true);
    expect(hall.give('outcome.correct', correct, { at: CLOSES, station: 'block' }).ok).toBe(true);
  });

  it('lets a lot go by its bids once they are awarded, also where the clock alone has closed them', () => {
    hall.must('bids.closing', { saleId: hall.saleId, closesAt: CLOSES }, 'block');
    bid('2026-02-28T10:00:00Z');
    const early = { code: 'wrong_stage', message: expect.stringContaining('Award them first.') };
    expect(block('outcome.record', ofLot(ACCEPT), CLOSES)).toMatchObject(early);
    expect(block('bids.award', { saleId: hall.saleId }, CLOSES).ok).toBe(true);
    expect(block('outcome.record', ofLot(ACCEPT), CLOSES).ok).toBe(true);
  });

  it('wants the bids closed where no time was set', () => {
    bid('2026-02-28T10:00:00Z');
    const refused = { code: 'wrong_stage', message: expect.stringContaining('Close the bids first, or set a closing') };
    expect(block('outcome.record', ofLot(ACCEPT), CLOSES)).toMatchObject(refused);
    expect(block('outcome.record', ofLot({ lotNo: '1', kind: 'passed' }), CLOSES)).toMatchObject(refused);
    expect(block('bids.award', { saleId: hall.saleId }, CLOSES)).toMatchObject(refused);
    expect(block('bids.close', { saleId: hall.saleId }, CLOSES).ok).toBe(true);
    expect(block('bids.award', { saleId: hall.saleId }, CLOSES).ok).toBe(true);
    expect(block('outcome.record', ofLot(ACCEPT), CLOSES).ok).toBe(true);
  });

  it('wants the sellers to answer later than the bids close', () => {
    const early = { saleId: hall.saleId, closesAt: CLOSES, answerBy: CLOSES };
    hall.refuses('bids.closing', early, { code: 'malformed', field: 'answerBy' });
  });
});

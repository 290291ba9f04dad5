import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { lastBuyers } from '#db/buyer/accounts.ts';
import { buyerView } from '#db/buyer/queries.ts';
import { findPeople } from '#db/person/queries.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { decideWalkIn, WALK_IN_NAME } from '#lib/buyer/walk-in.ts';
import { openHall } from '#tests/support/hall.ts';

const SALE = { id: 1, heldOn: '2026-02-28', stage: 'selling' } as const;

describe('buyer.walkin', () => {
  it('gives each the next free number, not cleared, under one shared name', () => {
    const { book, saleId, must } = openHall();
    expect(must('buyer.walkin', { saleId }, 'till')).toMatchObject({ buyerNo: 13 });
    expect(must('buyer.walkin', { saleId }, 'till')).toMatchObject({ buyerNo: 14 });
    expect(buyerView(book, SALE, 14)).toMatchObject({
      ...{ name: WALK_IN_NAME, walkIn: true, cleared: false, clearedBy: '' },
      licence: { state: 'missing' },
    });
    expect(buyerView(book, SALE, 10)).toMatchObject({ walkIn: false });
    expect(book.sqlite.prepare("SELECT count(*) FROM person WHERE ref = 'WALK-IN'").pluck().get()).toBe(1);
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true, difference: null });
  });

  it('is asked about at the Block like anybody who is not cleared, and then owes the lot', () => {
    const { book, saleId, must, refuses } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2' });
    must('buyer.walkin', { saleId }, 'till');
    const sold = { saleId, lotNo: '1', kind: 'sold', price: '20.00', buyerNo: 13 } as const;
    refuses('outcome.record', sold, { code: 'needs_answer', field: 'buyer_not_cleared' });
    must('outcome.record', { ...sold, answered: ['buyer_not_cleared'] });
    // 2 × 20.00, 5 % premium and 6.5 % of 42.00.
    expect(buyerView(book, SALE, 13)?.due).toEqual({ direction: 'in', amount: '44.73' });
  });

  it('shows a license where the rules of the table ask for one', () => {
    const { book, saleId, must, refuses } = openHall();
    must('intake.rules', { saleId, licenceRequired: true, duesUntil: '' });
    refuses('buyer.walkin', { saleId }, { code: 'missing', field: 'licenceNo' });
    const old = { saleId, licenceNo: 'FB-9', licenceRegion: 'US-WY', licenceExpires: '2026-02-27' } as const;
    refuses('buyer.walkin', old, { code: 'not_allowed', field: 'licenceExpires' });
    must('buyer.walkin', { ...old, licenceExpires: '2026-02-28' }, 'till');
    expect(buyerView(book, SALE, 13)).toMatchObject({ licence: { state: 'good' }, cleared: false });
  });

  it('is nobody who can be found, amended or come again', () => {
    const { book, saleId, must, refuses } = openHall();
    must('buyer.walkin', { saleId });
    const sale = saleById(book, saleId);
    if (!sale) throw new Error('the sale is not in the book');
    expect(findPeople(book, { text: 'walk', sale })).toEqual([]);
    const not = { code: 'not_allowed' } as const;
    refuses('person.amend', { personId: 4, name: 'Ivo Jay' }, { ...not, field: 'personId' });
    refuses('person.enrol', { ref: 'WALK-IN', name: 'Ivo Jay' }, { ...not, field: 'ref' });
    const next = { likeSaleId: 1, name: 'Next Winter Sale', held_on: '2027-02-27', season: '2026-27' };
    const { saleId: later } = must('sale.next', { ...next, season_closes_on: '' });
    const following = saleById(book, later);
    // Buyers 10, 11 and 12 come again, and 13 does not.
    expect(following && lastBuyers(book, following)?.count).toBe(3);
    expect(must('buyers.carry', { saleId: later, seen: 3 })).toMatchObject({ registered: [10, 11, 12] });
  });

  it('is refused of no sale and of a closed one', () => {
    openHall().refuses('buyer.walkin', { saleId: 9 }, { code: 'unknown', field: 'saleId' });
    openHall({ stage: 'closed' }).refuses('buyer.walkin', { saleId: 1 }, { code: 'wrong_stage', field: 'saleId' });
  });

  it('takes nobody else’s entry: a folder may have used the reference', () => {
    const rules = { required: false, heldOn: '2026-02-28', known: 'Ivo Jay' };
    const none = { licenceNo: '', licenceRegion: '', licenceExpires: null };
    expect(decideWalkIn(rules, none)).toMatchObject({ ok: false, code: 'conflict' });
    expect(decideWalkIn({ ...rules, known: WALK_IN_NAME }, none)).toMatchObject({ ok: true });
  });
});

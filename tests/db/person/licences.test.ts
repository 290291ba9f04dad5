import { describe, expect, it } from 'vitest';
import { openHall } from '#tests/support/hall.ts';

/** Seller 2 has a good licence, and the others have an old one, one without a date, and none. */
function hall(licenceRequired: boolean) {
  const own = openHall();
  const enrol = (name: string, over: object) => own.must('person.enrol', { name, ...over }).personId;
  const licence = { licenceNo: 'T-100', licenceRegion: 'US-WY' };
  const people = {
    good: enrol('Dot Ebner', { ...licence, licenceExpires: '2026-02-28' }),
    expired: enrol('Eli Frost', { ...licence, licenceExpires: '2026-02-27' }),
    undated: enrol('Fay Gale', licence),
    none: enrol('Gus Hale', {}),
  };
  own.must('seller.register', { saleId: 1, sellerNo: 2, partners: [{ personId: people.good }] });
  own.must('intake.rules', { saleId: 1, licenceRequired, duesUntil: '' });
  const register = (...ids: readonly number[]) => ({ saleId: 1, partners: ids.map((personId) => ({ personId })) });
  return { ...own, people, register };
}

describe('a sale that asks for a licence', () => {
  it('gives no number to whoever has none, or an expired one, and says what to do', () => {
    const { people, register, refuses, must } = hall(true);
    const ought = { code: 'not_allowed', field: 'partners' } as const;
    expect(refuses('seller.register', register(people.none), ought)).toBe(
      'Gus Hale has no licence on record, and nobody sells here without one: enter it, or send them to the officer’s table.',
    );
    expect(refuses('seller.register', register(people.expired), ought)).toBe(
      'Licence T-100 of US-WY expired on Feb 27, 2026, and nobody sells here with an expired licence: enter the new one of Eli Frost, or send them to the officer’s table.',
    );
    refuses('seller.register', register(people.good, people.none), ought);
    must('seller.register', register(people.good));
    must('seller.register', register(people.undated));
  });

  it('takes them once the new licence is entered', () => {
    const { people, register, must } = hall(true);
    must('person.amend', { personId: people.none, name: 'Gus Hale', licenceNo: 'T-9', licenceExpires: '2026-12-31' });
    must('seller.register', register(people.none));
  });

  it('takes no lots behind a number that was given before the rule, and moves none there', () => {
    const { refuses, must } = hall(true);
    const lot = { saleId: 1, goods: 'raccoon', count: '3' };
    const lotId = must('lot.add', { ...lot, sellerNo: 2 }).lotId;
    const ought = { code: 'not_allowed', field: 'sellerNo' } as const;
    refuses('lot.add', { ...lot, sellerNo: 1 }, ought);
    refuses('lots.add', { saleId: 1, sellerNo: 1, rows: [{ goods: 'raccoon', count: '3' }] }, ought);
    refuses('lot.move', { lotId, sellerNo: 1 }, ought);
  });
});

describe('a sale that does not ask', () => {
  it('takes everybody, for the licence is only shown', () => {
    const { people, register, must } = hall(false);
    must('seller.register', register(people.none, people.expired));
    must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '3' });
  });
});

describe('intake.rules', () => {
  it('refuses a day of dues before the sale, an unknown and a closed sale', () => {
    const { refuses } = openHall();
    const rules = { saleId: 1, licenceRequired: true, duesUntil: '2026-12-31' };
    refuses('intake.rules', { ...rules, duesUntil: '2026-02-27' }, { code: 'malformed', field: 'duesUntil' });
    refuses('intake.rules', { ...rules, saleId: 9 }, { code: 'unknown', field: 'saleId' });
    openHall({ stage: 'closed' }).refuses('intake.rules', rules, { code: 'wrong_stage', field: 'saleId' });
  });
});

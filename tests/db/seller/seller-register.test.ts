import { describe, expect, it } from 'vitest';
import { GOODS, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

describe('seller.register', () => {
  const { book, saleId, must, refusesUntyped } = openHall();
  const guest = must('person.enrol', { name: 'Gus Hale' }).personId;
  const partner = must('person.enrol', { name: 'Ida Jay' }).personId;
  const seller = { saleId, partners: [{ personId: guest }] };

  it('gives the next free number to partners by parts, with what they showed', () => {
    const sharing = [{ personId: guest, parts: 2 }, { personId: partner }];
    expect(must('seller.register', { ...seller, partners: sharing, broughtBy: 'Kit Lund' })).toMatchObject({
      sellerNo: 2,
    });
    expect(rowsOf(book).partner?.slice(-2)).toMatchObject([
      { position: 1, parts: 2 },
      { position: 2, parts: 1 },
    ]);
    expect(rowsOf(book).seller?.at(-1)).toMatchObject({ brought_by: 'Kit Lund', arrived_at: '2026-02-28T10:00:00Z' });
    expect(rowsOf(book).particulars?.slice(-2)).toMatchObject([{ name: 'Gus Hale' }, { name: 'Ida Jay' }]);
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ sellerNo: 1 }, 'taken', 'sellerNo'],
    [{ sellerNo: 0 }, 'malformed', 'sellerNo'],
    [{ partners: [] }, 'malformed', 'partners'],
    [{ partners: [{ personId: 99 }] }, 'unknown', 'partners'],
    [{ partners: [{ personId: 1 }, { personId: 1 }] }, 'taken', 'partners'],
    [{ partners: [{ personId: 1, parts: 0 }] }, 'malformed', 'partners.0.parts'],
    [{ partners: [{ personId: 1, parts: 1.5 }] }, 'malformed', 'partners.0.parts'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('seller.register', { ...seller, ...over }, { code, field });
  });

  it('says whose a number is that is not free, and which partners owe dues where only members may sell', () => {
    expect(refusesUntyped('seller.register', { ...seller, sellerNo: 2 }, { code: 'taken' })).toContain(
      'Seller number 2 is that of Gus Hale and Ida Jay',
    );
    const sale = { ...SALE, name: 'Members', terms: { ...SALE.terms, guests_may_sell: false } };
    const own = must('sale.plan', { sale, goods: GOODS }).saleId;
    must('sale.stage', { saleId: own, stage: 'intake', reason: '' });
    const shared = { saleId: own, partners: [{ personId: 1 }, { personId: guest }, { personId: partner }] };
    expect(refusesUntyped('seller.register', shared, { code: 'not_allowed' })).toContain(
      'sale, and Gus Hale and Ida Jay would sell as a guest',
    );
  });

  it('refuses a guest where only members may sell', () => {
    const sale = { ...SALE, name: 'Members only', terms: { ...SALE.terms, guests_may_sell: false } };
    const own = must('sale.plan', { sale, goods: GOODS }).saleId;
    must('sale.stage', { saleId: own, stage: 'intake', reason: '' });
    const said = refusesUntyped(
      'seller.register',
      { ...seller, saleId: own },
      { code: 'not_allowed', field: 'partners' },
    );
    expect(said).toContain('Gus Hale would sell as a guest');
    must('seller.register', { saleId: own, partners: [{ personId: 1 }] });
  });

  it.each(['settling', 'closed'] as const)('refuses a sale in the stage %s', (stage) => {
    openHall({ stage }).refuses('seller.register', { saleId, partners: [{ personId: 1 }] }, { code: 'wrong_stage' });
  });
});

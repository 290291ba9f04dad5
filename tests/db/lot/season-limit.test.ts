import { describe, expect, it } from 'vitest';
import { openHall, SALE } from '#tests/support/hall.ts';

// Common practice, no source: an association that follows a limit of 20 tagged bobcats a licence.
const BOBCAT = {
  goods: 'bobcat',
  name: 'Bobcat',
  by: 'piece',
  exportTag: true,
  tagSpeciesCode: 'BOB',
  seasonLimit: 20,
} as const;

function hallWithLimit() {
  const hall = openHall();
  const { must } = hall;
  const planned = must('sale.plan', { sale: { ...SALE, name: 'With a limit' }, goods: [BOBCAT] });
  const saleId = planned.saleId;
  must('sale.stage', { saleId, stage: 'intake', reason: '' });
  const licensed = (name: string, licenceNo: string) =>
    must('person.enrol', { name, memberUntil: '2026-12-31', licenceNo, licenceRegion: 'US-WY' }).personId;
  const [eve, fay] = [licensed('Eve Elder', 'L1'), licensed('Fay Fir', 'L2')];
  must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: eve }] });
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: eve }, { personId: fay }] });
  return { ...hall, saleId };
}

describe('a season limit of 20 a licence', () => {
  it('takes 20 over several lots and refuses the 21st, with the book unchanged', () => {
    const { saleId, must, refuses } = hallWithLimit();
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '12' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '8' });
    refuses('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1' }, { code: 'not_allowed', field: 'count' });
  });

  it('counts a changed lot once, and refuses what would be one too many', () => {
    const { saleId, must, refuses } = hallWithLimit();
    const lotId = must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '12' }).lotId;
    must('lot.amend', { lotId, goods: 'bobcat', count: '20', tags: [] });
    refuses('lot.amend', { lotId, goods: 'bobcat', count: '21', tags: [] }, { code: 'not_allowed', field: 'count' });
  });

  it('lets partners bring as many for each licence', () => {
    const { saleId, must, refuses } = hallWithLimit();
    expect(must('lot.add', { saleId, sellerNo: 2, goods: 'bobcat', count: '40' })).toHaveProperty('lotNo');
    refuses('lot.add', { saleId, sellerNo: 2, goods: 'bobcat', count: '1' }, { code: 'not_allowed', field: 'count' });
  });

  it('leaves out pieces that were withdrawn and went home', () => {
    const { saleId, must } = hallWithLimit();
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '20' });
    must('sale.stage', { saleId, stage: 'selling', reason: '' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'withdrawn' });
    expect(must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '20' })).toMatchObject({ lotNo: '2' });
  });
});

import { describe, expect, it } from 'vitest';
import { bobcatTag, GOODS, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

describe('lot.add', () => {
  const { book, saleId, must, refuses, refusesUntyped } = openHall();
  const raccoon = { saleId, sellerNo: 1, goods: 'raccoon', count: '3' };
  const bobcat = { saleId, sellerNo: 1, goods: 'bobcat', count: '2' };
  const lotRow = () => rowsOf(book).lot?.at(-1);

  it('takes the next free number, or the one on the ticket', () => {
    expect(must('lot.add', raccoon)).toMatchObject({ lotNo: '1', holds: [] });
    expect(must('lot.add', { ...raccoon, lotNo: '12a' })).toMatchObject({ lotNo: '12A' });
    expect(must('lot.add', raccoon)).toMatchObject({ lotNo: '13' });
  });

  it('keeps money as cents, weight as thousandths, and what is usual for the goods', () => {
    must('lot.add', {
      saleId,
      sellerNo: 1,
      goods: 'castor',
      weight: '7.35',
      minimum: '2.5',
      takenIn: 'US-MT',
      form: 'green',
    });
    const row = {
      by: 'oz',
      weight_thousandths: 7350,
      count: null,
      minimum_cents: 250,
      taken_in: 'US-MT',
      form: 'green',
    };
    expect(lotRow()).toMatchObject(row);
  });

  it('takes a tagged lot and holds it until its tags are right', () => {
    const { holds } = must('lot.add', { ...bobcat, tags: [bobcatTag(1)] });
    expect(holds).toEqual([expect.stringMatching(/tag/)]);
    expect(must('lot.add', { ...bobcat, tags: [bobcatTag(2), bobcatTag(3)] })).toMatchObject({ holds: [] });
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ sellerNo: 9 }, 'unknown', 'sellerNo'],
    [{ goods: 'mink' }, 'unknown', 'goods'],
    [{ goods: '' }, 'malformed', 'goods'],
    [{ lotNo: '12A' }, 'taken', 'lotNo'],
    [{ lotNo: 'A12' }, 'malformed', 'lotNo'],
    [{ count: '' }, 'missing', 'count'],
    [{ count: '3.5' }, 'malformed', 'count'],
    [{ count: '0' }, 'malformed', 'count'],
    [{ count: 3 }, 'malformed', 'count'],
    [{ weight: '7' }, 'malformed', 'weight'],
    [{ by: 'lb' }, 'missing', 'weight'],
    [{ minimum: 'NaN' }, 'malformed', 'minimum'],
    [{ minimum: '0' }, 'malformed', 'minimum'],
    [{ minimum: '5', withoutReserve: true }, 'malformed', 'minimum'],
    [{ takenIn: 'Montana' }, 'malformed', 'takenIn'],
    [{ tags: [bobcatTag(9)] }, 'malformed', 'tags'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('lot.add', { ...raccoon, ...over }, { code, field });
  });

  it.each([
    ['a tag on another piece', [bobcatTag(2)], 'taken'],
    ['a tag on another piece, spelled otherwise', [{ tag: 'us cites wy/bob/2025/000002' }], 'taken'],
    ['a tag entered twice', [bobcatTag(7), bobcatTag(7)], 'taken'],
    ['what is no tag', [{ tag: 'BOB 7' }], 'malformed'],
    ['501 tags', Array.from({ length: 501 }, (_, at) => bobcatTag(100 + at)), 'malformed'],
  ] as const)('refuses %s', (_, tags, code) => {
    refuses('lot.add', { ...bobcat, tags }, { code, field: 'tags' });
  });

  it.each(['settling', 'closed'] as const)('refuses a sale in the stage %s', (stage) => {
    openHall({ stage }).refuses('lot.add', raccoon, { code: 'wrong_stage' });
  });

  it('refuses a sale whose intake is not open yet', () => {
    const next = must('sale.plan', { sale: { ...SALE, name: 'Next Winter Sale' }, goods: GOODS }).saleId;
    refuses('lot.add', { ...raccoon, saleId: next }, { code: 'wrong_stage' });
  });
});

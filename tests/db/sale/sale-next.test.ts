import { describe, expect, it } from 'vitest';
import { openHall, rowsOf, SALE } from '#tests/support/hall.ts';

const NEXT = {
  ...{ likeSaleId: 1, name: 'Late Winter Sale', held_on: '2027-02-27', venue: 'Grange hall', season: '2026-27' },
  season_closes_on: '2027-02-15',
};

const rowsOfSale = (rows: unknown[] | undefined, saleId: unknown) =>
  ((rows ?? []) as Record<string, unknown>[]).filter((row) => row.sale_id === saleId);

describe('sale.next', () => {
  it('plans a sale like an earlier one, and leaves that one as it was', () => {
    const { book, must } = openHall({ stage: 'closed' });
    const before = rowsOf(book);
    const { saleId } = must('sale.next', NEXT);
    const after = rowsOf(book);
    for (const [table, rows] of Object.entries(before))
      expect(after[table]?.slice(0, rows.length), table).toEqual(rows);
    const [old, fresh] = (after.sale ?? []) as Record<string, unknown>[];
    const own = { id: saleId, held_on: '2027-02-27', season: '2026-27', season_closes_on: '2027-02-15' };
    const { line: _line, ...rest } = old ?? {};
    expect(fresh).toMatchObject({ ...rest, ...own, stage: 'planned', bids_close_at: null, dues_until: null });
    const kind = ({ id: _id, sale_id: _sale, line: _of, ...facts }: Record<string, unknown>) => facts;
    expect(rowsOfSale(after.goods, saleId).map(kind)).toEqual(rowsOfSale(before.goods, 1).map(kind));
    expect(rowsOfSale(after.commission_override, saleId)).toMatchObject([{ goods: 'bobcat', member_pct: '3.75' }]);
    expect(rowsOfSale(after.seller, saleId)).toEqual([]);
  });

  it('changing the new one leaves the old one alone', () => {
    const { book, must } = openHall({ stage: 'closed' });
    const old = rowsOf(book).sale?.[0];
    const { saleId } = must('sale.next', NEXT);
    const sale = { ...SALE, ...{ held_on: '2027-02-27', season: '2026-27', venue: 'Barn' } };
    must('sale.amend', { saleId, sale, reason: '' });
    must('goods.amend', { saleId, goods: 'raccoon', name: 'Coon', by: 'lot', reason: '' });
    expect(rowsOf(book).sale?.[0]).toEqual(old);
    expect(rowsOfSale(rowsOf(book).goods, 1)[0]).toMatchObject({ name: 'Raccoon', by: 'piece' });
  });

  it.each([
    ['the same name and day', { held_on: SALE.held_on }, 'taken', 'name'],
    ['a sale that is none', { likeSaleId: 9 }, 'unknown', 'likeSaleId'],
    ['a day in words', { held_on: '27 February' }, 'malformed', 'held_on'],
    ['no season', { season: ' ' }, 'malformed', 'season'],
  ] as const)('refuses %s', (...[, over, code, field]) => {
    openHall().refuses('sale.next', { ...NEXT, ...over }, { code, field });
  });
});

import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

describe('person.amend', () => {
  it('puts a person right, now and at a sale that is not closed', () => {
    const { book, must } = openHall();
    must('person.amend', { personId: 1, name: 'Ada Birch-Löw', city: 'Harrow', memberUntil: '' });
    expect(rowsOf(book).person?.[0]).toMatchObject({
      city: 'Harrow',
      member_until: null,
      name_folded: 'ada birch-low',
    });
    expect(rowsOf(book).particulars?.[0]).toMatchObject({ name: 'Ada Birch-Löw', ref: 'P0001' });
  });

  it('leaves what stood at a closed sale', () => {
    const { book, must } = openHall({ stage: 'closed' });
    const before = rowsOf(book).particulars;
    must('person.amend', { personId: 1, name: 'Ada Birch-Löw' });
    expect(rowsOf(book).particulars).toEqual(before);
  });

  it.each([
    [{ personId: 99 }, 'unknown', 'personId'],
    [{ name: ' ' }, 'malformed', 'name'],
    [{ memberUntil: '2026-13-01' }, 'malformed', 'memberUntil'],
  ] as const)('refuses %j', (over, code, field) => {
    openHall().refuses('person.amend', { personId: 1, name: 'Ada', ...over }, { code, field });
  });
});

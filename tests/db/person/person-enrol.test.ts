import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

describe('person.enrol', () => {
  const { book, must, refusesUntyped } = openHall();

  it('adds a person under a reference that is free, and keeps their name as it is spelled', () => {
    expect(must('person.enrol', { name: 'Zoë Łęcka', ref: 'P0006' })).toMatchObject({ ref: 'P0006' });
    expect(must('person.enrol', { name: 'Dee Elm' })).toMatchObject({ ref: 'P0005' });
    expect(must('person.enrol', { name: 'Eve Fir' })).toMatchObject({ ref: 'P0007' });
    expect(rowsOf(book).person?.[3]).toMatchObject({ name: 'Zoë Łęcka', name_folded: 'zoe lecka', member_until: null });
  });

  it.each([
    [{ name: '' }, 'malformed', 'name'],
    [{ ref: 'P0006' }, 'taken', 'ref'],
    [{ memberUntil: '3.12.2026' }, 'malformed', 'memberUntil'],
    [{ licenceExpires: '2026-02-29' }, 'malformed', 'licenceExpires'],
    [{ licenceRegion: 'WY' }, 'malformed', 'licenceRegion'],
    [{ phone: 5551234 }, 'malformed', 'phone'],
    [{ name: '\ud800' }, 'malformed', 'name'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('person.enrol', { name: 'Finn Gale', ...over }, { code, field });
  });
});

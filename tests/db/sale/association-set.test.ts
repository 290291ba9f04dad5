import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

describe('association.set', () => {
  const { book, must, refusesUntyped } = openHall();

  it('says whose book it is, and says it anew', () => {
    must('association.set', { name: 'Lantern Ridge', paper: 'a4', city: 'Harrow' });
    must('association.set', { name: 'Lantern Ridge Fur Harvesters' });
    const [row, ...more] = rowsOf(book).association ?? [];
    expect(row).toMatchObject({ id: 1, name: 'Lantern Ridge Fur Harvesters', paper: 'letter', city: '' });
    expect(more).toEqual([]);
  });

  it('keeps the time zone until another is said, so that no day moves unasked', () => {
    const zone = () => rowsOf(book).association?.map((row) => (row as { time_zone: string }).time_zone);
    expect(zone()).toEqual(['']);
    must('association.set', { name: 'Lantern Ridge', timeZone: 'America/Denver' });
    must('association.set', { name: 'Lantern Ridge Fur Harvesters' });
    expect(zone()).toEqual(['America/Denver']);
    must('association.set', { name: 'Lantern Ridge', timeZone: 'America/Chicago' });
    expect(zone()).toEqual(['America/Chicago']);
  });

  it.each([
    [{ name: '' }, 'malformed', 'name'],
    [{ name: '   ' }, 'malformed', 'name'],
    [{ name: 'A', timeZone: '' }, 'malformed', 'timeZone'],
    [{ name: 'A', timeZone: 'Montana' }, 'malformed', 'timeZone'],
    [{ name: 'A', timeZone: '-07:00' }, 'malformed', 'timeZone'],
    [{ name: 'A', paper: 'legal' }, 'malformed', 'paper'],
    [{ name: 'A', city: 'x'.repeat(501) }, 'malformed', 'city'],
    [{ name: 'A\u0007' }, 'malformed', 'name'],
  ] as const)('refuses %j', (input, code, field) => {
    refusesUntyped('association.set', input, { code, field });
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween } from '#lib/dates.ts';
import { copiesToLetGo, type DatedCopy } from '#lib/thin-copies.ts';

const at = (moment: string): DatedCopy => ({ name: moment, at: `${moment}:00.000Z` });
const letGo = (moments: readonly string[], today: string) =>
  copiesToLetGo(moments.map(at), `${today}T20:00:00.000Z`, 'UTC');

// The rule is this project's own; common practice, no source.
describe('dated copies', () => {
  it('are all kept on their day', () => {
    expect(letGo(['2026-02-28T08:00', '2026-02-28T08:10', '2026-02-28T17:00'], '2026-02-28')).toEqual([]);
  });

  it('are all kept on their day where the association is, though it is another in UTC', () => {
    const evening = ['2026-11-29T21:00', '2026-11-29T23:55', '2026-11-30T00:05', '2026-11-30T03:00'];
    const gone = (zone: string) => copiesToLetGo(evening.map(at), '2026-11-30T03:05:00.000Z', zone);
    expect(gone('America/Denver')).toEqual([]);
    expect(gone('UTC')).toEqual(['2026-11-29T21:00']);
  });

  it('are kept one a day afterwards, the newest of each', () => {
    const days = ['2026-02-26T09:00', '2026-02-26T15:00', '2026-02-27T09:00', '2026-02-27T18:00', '2026-02-28T08:00'];
    expect(letGo(days, '2026-02-28')).toEqual(['2026-02-26T09:00', '2026-02-27T09:00']);
  });

  // 2026-01-05 is a Monday (ISO 8601 weeks).
  it('are kept one a week when they are older than two weeks', () => {
    const old = ['2026-01-04T12:00', '2026-01-05T12:00', '2026-01-08T12:00', '2026-01-11T12:00', '2026-02-28T12:00'];
    expect(letGo(old, '2026-02-28')).toEqual(['2026-01-05T12:00', '2026-01-08T12:00']);
  });

  it('are kept where they say that they come from tomorrow, and the newest always', () => {
    expect(letGo(['2027-01-01T00:00', '2027-01-01T00:10'], '2026-02-28')).toEqual([]);
    expect(letGo(['2020-01-01T00:00'], '2026-02-28')).toEqual([]);
  });

  it('leave one of every day of two weeks and of every week, and thinning again lets nothing go', () => {
    const today = '2026-02-28';
    const copies = fc.uniqueArray(
      fc.record({ back: fc.integer({ min: 0, max: 400 }), hour: fc.integer({ min: 10, max: 23 }) }),
      { selector: ({ back, hour }) => `${back} ${hour}`, maxLength: 120 },
    );
    fc.assert(
      fc.property(copies, (drawn) => {
        const all = drawn.map(({ back, hour }) => at(`${addDays(today, -back)}T${hour}:00`));
        const gone = new Set(copiesToLetGo(all, `${today}T23:30:00.000Z`, 'UTC'));
        const kept = all.filter(({ name }) => !gone.has(name));
        for (const copy of all) {
          const day = copy.at.slice(0, 10);
          const near = daysBetween(day, today) <= 14 ? 0 : 6;
          expect(kept.some((one) => Math.abs(daysBetween(one.at.slice(0, 10), day)) <= near)).toBe(true);
          if (day === today) expect(gone.has(copy.name)).toBe(false);
        }
        expect(copiesToLetGo(kept, `${today}T23:30:00.000Z`, 'UTC')).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CopyHead, copiesToLetGo, type DatedCopy } from '#lib/backup/backups.ts';
import { addDays, daysBetween } from '#lib/date/date.ts';

/** Copies of a book that did not change meanwhile. */
const at = (moment: string, head: CopyHead | null = { line: 7, hash: 'the seventh' }): DatedCopy => ({
  ...{ name: moment, at: `${moment}:00.000Z`, head },
});
const inBook = ({ hash }: CopyHead) => hash !== 'of another';
const onTheDay = (today: string) => ({ now: `${today}T23:30:00.000Z`, timeZone: 'UTC' });
const thin = (copies: readonly DatedCopy[], today: string) => copiesToLetGo(copies, { ...onTheDay(today), inBook });
const letGo = (moments: readonly string[], today: string) =>
  thin(
    moments.map((moment) => at(moment)),
    today,
  );

// The rule is this project's own; common practice, no source.
describe('dated copies', () => {
  it('are all kept on their day', () => {
    expect(letGo(['2026-02-28T08:00', '2026-02-28T08:10', '2026-02-28T17:00'], '2026-02-28')).toEqual([]);
  });

  it('are all kept on their day where the association is, though it is another in UTC', () => {
    const evening = ['2026-11-29T21:00', '2026-11-29T23:55', '2026-11-30T00:05', '2026-11-30T03:00'];
    const copies = evening.map((moment) => at(moment));
    const gone = (timeZone: string) => copiesToLetGo(copies, { now: '2026-11-30T03:05:00.000Z', timeZone, inBook });
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
        const gone = new Set(thin(all, today));
        const kept = all.filter(({ name }) => !gone.has(name));
        for (const copy of all) {
          const day = copy.at.slice(0, 10);
          const near = daysBetween(day, today) <= 14 ? 0 : 6;
          expect(kept.some((one) => Math.abs(daysBetween(one.at.slice(0, 10), day)) <= near)).toBe(true);
          if (day === today) expect(gone.has(copy.name)).toBe(false);
        }
        expect(thin(kept, today)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('are kept where the book does not have what is in them, or nobody knows what is, and take no place of others', () => {
    const old = ['2026-02-26T09:00', '2026-02-26T15:00'].map((moment) => at(moment));
    const lost = [at('2026-02-26T16:00', { line: 12, hash: 'of another' }), at('2026-02-26T17:00', null)];
    const today = at('2026-02-28T08:00');
    expect(thin([...old, ...lost, today], '2026-02-28')).toEqual(['2026-02-26T09:00']);
  });

  it('are kept where they have the most lines, also where a clock was set back', () => {
    const longest = at('2026-02-26T09:00', { line: 9, hash: 'the ninth' });
    expect(thin([longest, at('2026-02-26T15:00'), at('2026-02-28T08:00')], '2026-02-28')).toEqual([]);
  });
});

/** A book and others that went on from one of its lines, or from its end: each copy is of one of them, up to a line. */
const HISTORY = fc
  .record({
    lines: fc.integer({ min: 0, max: 30 }),
    forks: fc.array(fc.integer({ min: 0, max: 30 }), { maxLength: 3 }),
  })
  .map(({ lines, forks }) => {
    const hashOf = (branch: number, line: number) =>
      branch === 0 || line <= Math.min(forks[branch - 1] ?? 0, lines) ? `${line}` : `${line} of ${branch}`;
    return { lines, branches: forks.length + 1, hashOf };
  });
const DRAWN = fc.record({
  ...{ branch: fc.nat(9), line: fc.nat(45), known: fc.integer({ min: 0, max: 9 }) },
  ...{ back: fc.integer({ min: -2, max: 60 }), hour: fc.integer({ min: 10, max: 23 }) },
});

describe('thinning', () => {
  it('takes away the beginning of what stays, and nothing that the book does not have, whatever the copies', () => {
    const today = '2026-02-28';
    fc.assert(
      fc.property(HISTORY, fc.array(DRAWN, { maxLength: 60 }), ({ lines, branches, hashOf }, drawn) => {
        const all = drawn.map(({ branch: one, line: most, known, back, hour }, place) => {
          const branch = one % branches;
          const line = branch === 0 ? Math.min(most, lines) : most;
          const head = known === 0 ? null : { line, hash: hashOf(branch, line) };
          return { ...at(`${addDays(today, -back)}T${hour}:00`, head), name: `${place}`, branch };
        });
        const isOfBook = ({ line, hash }: CopyHead) => line <= lines && hashOf(0, line) === hash;
        const gone = new Set(copiesToLetGo(all, { ...onTheDay(today), inBook: isOfBook }));
        const kept = all.filter(({ name }) => !gone.has(name));
        for (const { name, head } of all) {
          if (head === null || !isOfBook(head)) expect(gone.has(name)).toBe(false);
          else if (gone.has(name)) {
            const holds = kept.some(
              (one) => one.head && one.head.line >= head.line && hashOf(one.branch, head.line) === head.hash,
            );
            expect(holds).toBe(true);
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('a month of thinning after a loss', () => {
  it('keeps the backup that has what was lost, and the longest of the book itself', () => {
    const month = fc.record({
      ...{ lostOn: fc.integer({ min: 0, max: 30 }), lines: fc.integer({ min: 1, max: 9 }) },
      perDay: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 31, maxLength: 31 }),
    });
    fc.assert(
      fc.property(month, ({ lostOn, lines, perDay }) => {
        let copies: DatedCopy[] = [];
        let line = 0;
        const own = new Set<string>();
        const copy = (day: string, hour: number, hash: string) => {
          copies.push({ ...at(`${day}T${10 + hour}:00`, { line, hash }), name: `${day} ${hour} ${hash}` });
        };
        let good = '';
        for (const [back, made] of perDay.entries()) {
          const day = addDays('2026-01-01', back);
          for (let hour = 0; hour < made; hour += 1) {
            line += 1;
            own.add(`${line} of the book`);
            copy(day, hour, `${line} of the book`);
          }
          if (back === lostOn) {
            // Entered, backed up, and lost from the book: the next entries have the same numbers.
            const before = line;
            line += lines;
            copy(day, made, `${line} that was lost`);
            good = copies.at(-1)?.name ?? '';
            line = before;
          }
          const gone = copiesToLetGo(copies, { ...onTheDay(day), inBook: ({ hash }) => own.has(hash) });
          copies = copies.filter(({ name }) => !gone.includes(name));
          expect(copies.some(({ name }) => name === good)).toBe(back >= lostOn);
          expect(Math.max(...copies.map(({ head }) => (head && own.has(head.hash) ? head.line : 0)))).toBe(line);
        }
      }),
      { numRuns: 100 },
    );
  });
});

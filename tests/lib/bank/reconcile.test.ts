/**
 * The book and the statement. That checks on their way and deposits in transit explain their difference: every textbook
 * of bookkeeping (from memory). Six months: Uniform Commercial Code § 4-404, read in RCW 62A.4-404.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ageWords, type BankEntry, reconcile, statementSteps } from '#lib/bank/reconcile.ts';
import { cents, negate, sumOf, ZERO } from '#lib/money/money.ts';

const entry = (entryId: number, amount: number, over: Partial<BankEntry> = {}): BankEntry => ({
  ...{ entryId, day: '2026-03-01', memo: `entry ${entryId}`, amountCents: cents(amount) },
  ...{ reversesId: null, withId: null, clearedOn: null },
  ...over,
});

describe('the account at the end of a day', () => {
  it('has a check as outstanding until the day on which it was stopped', () => {
    const entries = [
      entry(1, 100_00, { clearedOn: '2026-03-02' }),
      entry(2, -40_00),
      entry(3, 40_00, { day: '2026-04-01', reversesId: 2 }),
    ];
    expect(reconcile(entries, '2026-03-31')).toMatchObject({ bookCents: 6000, statementCents: 10_000 });
    expect(reconcile(entries, '2026-03-31').checksOut.map(({ entryId }) => entryId)).toEqual([2]);
    expect(reconcile(entries, '2026-04-01')).toMatchObject({ bookCents: 10_000, checksOut: [], inTransit: [] });
    // On the day before the bank showed it, the deposit was in transit.
    expect(reconcile(entries, '2026-03-01')).toMatchObject({ bookCents: 6000, statementCents: 0 });
  });

  it('is what is cleared and what is outstanding, whatever happened', () => {
    const day = fc.constantFrom('2026-03-01', '2026-03-02', '2026-03-03', '2026-03-04');
    const drawn = fc.array(
      fc.record({
        amount: fc.integer({ min: -9999, max: 9999 }),
        day,
        later: day,
        cleared: fc.boolean(),
        back: fc.boolean(),
      }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(drawn, day, (rows, upTo) => {
        const entries = rows.flatMap((row, at) => {
          const [first, second] = [row.day, row.later].sort();
          const own = entry(2 * at, row.amount, { day: first ?? row.day });
          if (row.cleared) return [{ ...own, clearedOn: second ?? row.later }];
          if (!row.back) return [own];
          const back = { day: second ?? row.later, amountCents: negate(own.amountCents), reversesId: own.entryId };
          return [own, { ...own, ...back, entryId: own.entryId + 1 }];
        });
        const { bookCents, clearedCents, checksOut, inTransit, statementCents } = reconcile(entries, upTo);
        const outstanding = sumOf([...checksOut, ...inTransit], 'amountCents');
        expect(clearedCents + outstanding).toBe(bookCents);
        expect(statementCents).toBe(clearedCents);
        expect(checksOut.every(({ amountCents }) => amountCents < 0)).toBe(true);
      }),
    );
  });
});

describe('the comparison in words', () => {
  const figures = reconcile(
    [entry(1, 100_00, { clearedOn: '2026-03-02' }), entry(2, -40_00), entry(3, 5_00)],
    '2026-03-31',
  );

  it('leads from the book to the statement, and says what may be wrong', () => {
    const { steps, difference } = statementSteps(figures, { otherCents: cents(500_00), saysCents: cents(600_00) });
    expect(steps).toEqual([
      ['Balance of the book', '65.00'],
      ['plus what the bank has not paid yet: 1', '40.00'],
      ['less deposits in transit: 1', '5.00'],
      ['plus money that this book does not know', '500.00'],
      ['What the statement should say', '600.00'],
      ['The statement says', '600.00'],
    ]);
    expect(difference).toBe('The statement and the book agree.');
    const off = (says: number) => statementSteps(figures, { otherCents: ZERO, saysCents: cents(says) }).difference;
    expect(off(101_50)).toContain('The statement has 1.50 more than the book');
    expect(off(88_00)).toContain('The statement has 12.00 less than the book');
    expect(statementSteps(figures, { otherCents: ZERO, saysCents: null })).toMatchObject({ difference: null });
  });

  it('counts the days of a check, and says when a bank need not pay it any more', () => {
    expect(ageWords({ day: '2026-03-01' }, '2026-03-01')).toEqual({ words: 'today', stale: false });
    expect(ageWords({ day: '2026-03-01' }, '2026-03-02')).toEqual({ words: '1 day', stale: false });
    expect(ageWords({ day: '2026-03-01' }, '2026-08-31')).toEqual({ words: '183 days', stale: false });
    expect(ageWords({ day: '2026-03-01' }, '2026-09-01')).toEqual({ words: '184 days', stale: true });
  });
});

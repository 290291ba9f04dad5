import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nextFree, runsOf, takenMistake } from '#lib/payment/check-numbers.ts';

describe('numbers of checks that are used up', () => {
  const taken = runsOf([503, 501, 502, 2636, 507, 501]);

  it('are runs, in order', () => {
    expect(taken).toEqual([
      [501, 503],
      [507, 507],
      [2636, 2636],
    ]);
  });

  it.each([
    [500, 500],
    [501, 504],
    [507, 508],
  ])('leave behind %i the next free %i', (number, free) => {
    expect(nextFree(number, taken)).toBe(free);
  });

  it.each([
    [501, 18, 'Checks 501 to 503 and 507 are written already: begin where 18 numbers are free.'],
    [502, 1, 'Check 502 is written already: enter another number.'],
    [504, 4, 'Check 507 is written already: begin where 4 numbers are free.'],
    [504, 3, null],
    [2637, 500, null],
  ])('are said of a pile from %i of %i', (first, count, words) => {
    expect(takenMistake(first, count, taken)).toBe(words);
  });

  it('stop a pile exactly where one of its numbers is among them', () => {
    const number = fc.integer({ min: 1, max: 60 });
    fc.assert(
      fc.property(
        fc.array(number, { maxLength: 20 }),
        number,
        fc.integer({ min: 1, max: 20 }),
        (used, first, count) => {
          const hits = used.some((one) => one >= first && one < first + count);
          expect(takenMistake(first, count, runsOf(used)) !== null).toBe(hits);
        },
      ),
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fnv1a, prngFor } from '#seed/prng.ts';

describe('chance', () => {
  it('starts from the Fowler–Noll–Vo hash (FNV-1a, 32 bits; vectors of its authors’ test suite, from memory)', () => {
    expect(fnv1a('')).toBe(0x811c9dc5);
    expect(fnv1a('a')).toBe(0xe40c292c);
    expect(fnv1a('foobar')).toBe(0xbf9cf968);
  });

  it('falls the same way for the same word, and another way for another', () => {
    const draws = (word: string) =>
      Array.from(
        { length: 20 },
        (
          (prng) => () =>
            prng.below(1000)
        )(prngFor(word)),
      );
    expect(draws('hammer')).toEqual(draws('hammer'));
    expect(draws('hammer')).not.toEqual(draws('tags'));
  });

  it('stays between its ends and reaches both', () => {
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: -5, max: 5 }), fc.nat({ max: 3 }), (word, low, more) => {
        const prng = prngFor(word);
        const drawn = Array.from({ length: 200 }, () => prng.between(low, low + more));
        expect(Math.min(...drawn)).toBe(low);
        expect(Math.max(...drawn)).toBe(low + more);
      }),
      { numRuns: 50 },
    );
  });

  it('picks by weight, never what weighs nothing', () => {
    const prng = prngFor('weights');
    const count = { often: 0, seldom: 0, never: 0 };
    for (let draw = 0; draw < 2000; draw += 1) {
      count[
        prng.weighted([
          ['never', 0],
          ['often', 9],
          ['seldom', 1],
        ] as const)
      ] += 1;
    }
    expect(count.never).toBe(0);
    expect(count.seldom).toBeGreaterThan(100);
    expect(count.often).toBeGreaterThan(1600);
  });

  it('refuses to pick from nothing', () => {
    expect(() => prngFor('empty').pick([])).toThrow(RangeError);
  });
});

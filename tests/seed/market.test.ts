import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '#lib/money/decimal.ts';
import { GOODS } from '#seed/association.ts';
import { hammer, KINDS, onStep, worth } from '#seed/market.ts';
import { prngFor } from '#seed/prng.ts';

const PRIME = { goods: 'raccoon', size: 'L', grade: 'I', section: 'Foothills', form: 'put_up' } as const;

describe('the invented market', () => {
  it('knows every kind of goods in every size, and no other', () => {
    expect(Object.keys(KINDS).sort()).toEqual(GOODS.map(({ goods }) => goods).sort());
    for (const { goods, sizes } of GOODS) {
      expect(Object.keys(KINDS[goods]?.cents ?? {})).toEqual(sizes.length === 0 ? [''] : sizes);
    }
  });

  it('pays less for a lower grade, a smaller size, a green skin, and in the bad year', () => {
    const at = (over: object, season: 0 | 1 = 0) => worth({ ...PRIME, ...over }, season).toNumber();
    expect(at({})).toBe(1050);
    expect(at({ grade: 'II' })).toBe(777);
    expect(at({ size: 'M' })).toBe(750);
    expect(at({ section: 'Prairie' })).toBe(1176);
    expect(at({ form: 'green' })).toBe(651);
    expect(at({}, 1)).toBe(441);
  });

  it('says so where it is asked for what it does not know', () => {
    expect(() => worth({ ...PRIME, goods: 'unicorn' }, 0)).toThrow('unicorn');
    expect(() => worth({ ...PRIME, size: 'XXL' }, 0)).toThrow('XXL');
  });

  it('lets the hammer fall on a quarter, a half from 20.00 and a whole unit from 50.00', () => {
    expect(onStep(new Decimal(1))).toBe(25);
    expect(onStep(new Decimal('312.5'))).toBe(325);
    expect(onStep(new Decimal(2024))).toBe(2000);
    expect(onStep(new Decimal(2025))).toBe(2050);
    expect(onStep(new Decimal(5050))).toBe(5100);
  });

  it('stays within an eighth of the worth and half a step', () => {
    fc.assert(
      fc.property(fc.integer({ min: 25, max: 30_000 }), fc.string(), (value, word) => {
        const price = hammer(new Decimal(value), prngFor(word));
        expect(price % 25).toBe(0);
        expect(price).toBeGreaterThanOrEqual(Math.max(25, value * 0.875 - 50));
        expect(price).toBeLessThanOrEqual(Math.max(25, value * 1.125 + 50));
      }),
    );
  });
});

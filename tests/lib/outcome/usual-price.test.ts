import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cents } from '#lib/money/money.ts';
import { boundsInWords, usualPrices } from '#lib/outcome/pace.ts';
import { money } from '#tests/support/facts.ts';

describe('the prices nobody is asked about', () => {
  it('run from a tenth of the low to three times the high', () => {
    expect(usualPrices({ lowCents: money('8.00'), highCents: money('14.50') })).toEqual({
      lowCents: 80,
      highCents: 4350,
    });
  });

  it('leave out exactly what is under a tenth of the low or over three times the high', () => {
    const amount = fc.integer({ min: 1, max: 1_000_000 }).map(cents);
    fc.assert(
      fc.property(amount, amount, amount, (one, other, price) => {
        const [lowCents, highCents] = one < other ? [one, other] : [other, one];
        const usual = usualPrices({ lowCents, highCents });
        expect(price < usual.lowCents).toBe(price * 10 < lowCents);
        expect(price > usual.highCents).toBe(price > highCents * 3);
      }),
    );
  });

  it('are told as a range, or as one price', () => {
    expect(boundsInWords({ lowCents: money('8.00'), highCents: money('1250.00') })).toBe('8.00 to 1,250.00');
    expect(boundsInWords({ lowCents: money('8.00'), highCents: money('8.00') })).toBe('8.00');
  });
});

import { describe, expect, it } from 'vitest';
import { minimumInWords, quantityInWords } from '#lib/lot/words.ts';
import type { By } from '#lib/sale/facts.ts';
import { money } from '#tests/support/facts.ts';

const lot = (by: By, count: number | null, weightThousandths: number | null = null) => ({
  by,
  count,
  weightThousandths,
});

describe('a minimum, as it was said and the other way', () => {
  it.each([
    // "$25 each or $250 for the ten": common practice, no source.
    ['each', ['25.00', lot('piece', 10)] as const, '25.00 each, 250.00 for the lot'],
    ['for the lot', ['250.00', lot('lot', 10)] as const, '250.00 for the lot, 25.00 each'],
    ['a third of a cent is rounded half up', ['10.00', lot('lot', 3)] as const, '10.00 for the lot, 3.33 each'],
    ['half a cent goes up', ['0.25', lot('lot', 2)] as const, '0.25 for the lot, 0.13 each'],
    ['one piece', ['25.00', lot('piece', 1)] as const, '25.00 each'],
    ['by weight', ['3.50', lot('oz', null, 15_500)] as const, '3.50 an oz, 54.25 for the lot'],
    ['weight not typed yet', ['3.50', lot('lb', null)] as const, '3.50 a lb'],
  ])('%s', (_, [minimum, measured], words) => {
    expect(minimumInWords(money(minimum), measured)).toBe(words);
  });

  it('says nothing where there is none', () => {
    expect(minimumInWords(null, lot('piece', 10))).toBe('');
  });
});

describe('a quantity in words', () => {
  it.each([
    [lot('piece', 1), '1 piece'],
    [lot('lot', 12), '12 pieces'],
    [lot('lb', null, 7350), '7.35 lb'],
    [lot('oz', 16, 15_500), '16 pieces, 15.5 oz'],
  ])('%j', (measured, words) => {
    expect(quantityInWords(measured)).toBe(words);
  });
});

import { describe, expect, it } from 'vitest';
import { COMMON_NAMES, findGoods } from '#lib/price/find.ts';
import { STARTING_GOODS } from '#lib/sale/goods.ts';

const found = (text: string) => findGoods(STARTING_GOODS, text).map(({ goods }) => goods);

describe('finding goods', () => {
  // Names that dictionaries of American English give for these animals; the table itself is common practice.
  it.each([
    ['coon', 'raccoon'],
    ['Coons', 'raccoon'],
    ['possum', 'opossum'],
    ['rats', 'muskrat'],
    ['ermine', 'weasel'],
    ['Lynx rufus', 'bobcat'],
    ['grey fox', 'fox-gray'],
    ['mushrat', 'muskrat'],
    ['coyoet', 'coyote'],
    ['BOBCAT', 'bobcat'],
    ['deer', 'deer-hide'],
  ])('takes %s for %s', (text, goods) => {
    expect(found(text)).toEqual([goods]);
  });

  it('gives every kind that a part of a name may mean, and nothing for what nobody sells', () => {
    expect(found('fox')).toEqual(['fox-gray', 'fox-red']);
    expect(found('foxes')).toEqual(['fox-gray', 'fox-red']);
    expect(found('unicorn')).toEqual([]);
    expect(found('  ')).toEqual([]);
  });

  it('has common names of goods of the list only, and each leads to its own goods', () => {
    for (const [goods, names] of Object.entries(COMMON_NAMES)) {
      for (const name of [goods, ...names]) expect(found(name), name).toContain(goods);
    }
  });
});

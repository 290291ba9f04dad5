import { expect, it } from 'vitest';
import { linked } from '#lib/price/range.ts';

it('counts seller numbers that share a person as one, also over a third', () => {
  const found = linked(
    new Map([
      ['a', [1]],
      ['b', [2, 3]],
      ['c', [4]],
      ['d', [3, 1]],
      ['e', [1]],
    ]),
  );
  expect(found.get('a')).toBe(found.get('b'));
  expect(found.get('d')).toBe(found.get('e'));
  expect(found.get('c')).toBe(4);
  expect(new Set(found.values()).size).toBe(2);
});

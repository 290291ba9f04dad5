import { describe, expect, it } from 'vitest';
import { decideWithdraw } from '#lib/lot/decide-lot.ts';

// UCC § 2-328(3): with reserve the goods may be withdrawn until completion; without reserve not once bids are called for.
describe('withdrawing a lot before it is called', () => {
  it.each([
    ['with reserve', false, 0, true],
    ['with reserve and bids', false, 2, true],
    ['without reserve, before any bid', true, 0, true],
    ['without reserve and with bids', true, 1, false],
  ] as const)('%s', (...[, withoutReserve, bids, ok]) => {
    expect(decideWithdraw({ lotNo: '12', withoutReserve, bids }).ok).toBe(ok);
  });
});

import { describe, expect, it } from 'vitest';
import { waitSeconds } from '#lib/worker/worker.ts';

describe('the wait after wrong passphrases', () => {
  it('is nothing at first, doubles, and ends at a minute', () => {
    expect([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 100, 1e9].map(waitSeconds)).toEqual([
      0, 0, 0, 0, 2, 4, 8, 16, 32, 60, 60, 60,
    ]);
  });
});

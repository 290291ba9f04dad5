import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stubPages } from '#lib/paper/labels.ts';
import { cell, type ListPaper, listPaper } from '#lib/paper/list.ts';
import { GROUND } from '#tests/papers/support/lots.ts';

function stub(number: number, rows: number): ListPaper {
  return listPaper(GROUND, {
    title: 'Check stub',
    number: { label: 'Check', words: String(number) },
    tables: [{ title: '', columns: [], rows: Array.from({ length: rows }, () => [cell('a')]), none: '', sum: '' }],
  });
}

const numbersOn = (papers: ReturnType<typeof stubPages>) =>
  papers.map((one) => (one.paper === 'stubs' ? one.stubs.map(({ list }) => list.number?.words) : [one.number?.words]));

describe('the stubs of checks', () => {
  it('stand three on a page, and a long one takes two places or a paper of its own', () => {
    const lists = [3, 9, 4, 5, 10, 6, 28, 29, 2].map((rows, at) => stub(at + 1, rows));
    expect(numbersOn(stubPages(lists))).toEqual([['1', '2', '3'], ['4', '5'], ['6', '7'], ['8'], ['9']]);
  });

  it('are all there in their order, and no page is begun before the one before it is full', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 40 }), { maxLength: 12 }), (rows) => {
        const pages = stubPages(rows.map((count, at) => stub(at + 1, count)));
        expect(numbersOn(pages).flat()).toEqual(rows.map((_, at) => String(at + 1)));
        const sizes = pages.map((one) => (one.paper === 'stubs' ? one.stubs.map(({ thirds }) => thirds) : [3]));
        const whole = sizes.map((own) => own.reduce((so, one) => so + one, 0));
        expect(whole.every((thirds) => thirds <= 3)).toBe(true);
        for (const [at, thirds] of whole.slice(0, -1).entries())
          expect(thirds + (sizes[at + 1]?.[0] ?? 0)).toBeGreaterThan(3);
      }),
    );
  });
});

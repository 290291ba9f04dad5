import { describe, expect, it } from 'vitest';
import { files, read } from '#tests/tidy/tree.ts';

const LAYOUTS = files(/^app\/papers\/.*\.tsx$/);

/** An import of something other than types from lib/. */
const TAKES_RULES = /^import (?!type\b).*from '#lib\//m;
/** What adds up: a running sum over rows, or the money's own sums. */
const ADDS_UP = /\.reduce\(|\+=|\b(sum|add|subtract)Cents\b|\bDecimal\b/;

/** What may add, each for a reason that is no figure on the paper. */
const MAY: Readonly<Record<string, string>> = {
  'app/papers/codes.tsx': 'The widths of a code’s bars, to know where the next one begins.',
};

describe('a layout', () => {
  it('is looked for in the place where they are', () => {
    expect(LAYOUTS).toContain('app/papers/settlement-sheet.tsx');
    expect(LAYOUTS).toContain('app/papers/list.tsx');
  });

  it.each(LAYOUTS)('%s takes finished words, and works nothing out', (path) => {
    const text = read(path);
    expect(TAKES_RULES.test(text), 'import types only: the model has the words').toBe(false);
    expect(ADDS_UP.test(text) && !(path in MAY), 'make the sum in lib/').toBe(false);
  });

  it('that added up would be caught', () => {
    expect(TAKES_RULES.test("import { showMoney } from '#lib/money.ts';\n")).toBe(true);
    expect(TAKES_RULES.test("import type { Ticket } from '#lib/paper/ticket.ts';\n")).toBe(false);
    expect(ADDS_UP.test('const total = lots.reduce((so, lot) => so + lot.cents, 0);')).toBe(true);
    expect(ADDS_UP.test('total += lot.cents;')).toBe(true);
    for (const path of Object.keys(MAY)) expect(ADDS_UP.test(read(path))).toBe(true);
  });
});

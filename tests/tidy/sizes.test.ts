import { describe, expect, it } from 'vitest';
import { files, read } from './tree.ts';

// A file that is long for a good reason says so at its top, in a comment with these words.
const REASON = /\bLong because \S/;
const TOP_LINES = 5;

interface Limit {
  readonly what: string;
  readonly where: RegExp;
  readonly lines: number;
}

const LIMITS: readonly Limit[] = [
  { what: 'a file of code', where: /\.(tsx?|[cm]js|css)$/, lines: 300 },
  { what: 'a page, which is a table of contents', where: /^app\/.*\bpage\.tsx$/, lines: 60 },
];

function tooLong(text: string, limit: number): boolean {
  const lines = text.trimEnd().split('\n');
  return lines.length > limit && !REASON.test(lines.slice(0, TOP_LINES).join('\n'));
}

describe.each(LIMITS)('$what', ({ where, lines }) => {
  it(`has at most ${lines} lines, or a reason`, () => {
    const long = files(where).filter((path) => tooLong(read(path), lines));
    expect(long, 'split it, or say at its top: Long because …').toEqual([]);
  });
});

describe('the limit', () => {
  it('catches one line too many, and takes a reason at the top only', () => {
    expect(tooLong('a\n'.repeat(60), 60)).toBe(false);
    expect(tooLong('a\n'.repeat(61), 60)).toBe(true);
    expect(tooLong(`// Long because it is one table.\n${'a\n'.repeat(61)}`, 60)).toBe(false);
    expect(tooLong(`${'a\n'.repeat(61)}// Long because it is one table.\n`, 60)).toBe(true);
  });
});

import { describe, expect, it } from 'vitest';
import { groupBy } from '#lib/result/text.ts';
import { FILES, files, read } from './tree.ts';

// A file that is long for a good reason says so at its top, in a comment with these words.
const REASON = /\bLong because \S/;
const TOP_LINES = 5;

/** What a newcomer meets in one folder, and in all. */
const MOST_IN_A_FOLDER = 25;
const LEAST_MEDIAN = 70;

/** The house as it was moved into one folder a word, and what each capability since may add to it (docs/decisions/0112). */
const ROOM = [
  { what: 'the moved house', sources: 480, lines: 45_000 },
  { what: 'one account under all money', sources: 40, lines: 5_500 },
  { what: 'nothing typed is lost', sources: 15, lines: 1_500 },
  { what: 'fair shares for every device', sources: 20, lines: 2_000 },
  { what: 'the hall in two minutes', sources: 20, lines: 2_000 },
  { what: 'bids that count', sources: 25, lines: 2_500 },
  { what: 'each State its own rules', sources: 25, lines: 3_000 },
];
const MOST_SOURCES = ROOM.reduce((sum, { sources }) => sum + sources, 0);
const MOST_LINES = ROOM.reduce((sum, { lines }) => sum + lines, 0);

const SOURCES = /^(app|lib|db|seed)\/.*\.tsx?$/;
const HOUSE = /^(app|lib|db|seed|tests)\//;

const linesOf = (text: string): number => text.trimEnd().split('\n').length;

function tooLong(text: string, limit: number): boolean {
  const lines = text.trimEnd().split('\n');
  return lines.length > limit && !REASON.test(lines.slice(0, TOP_LINES).join('\n'));
}

/** The folders with more files of their own than `most`, and how many they have. */
function fullFolders(paths: readonly string[], most: number): readonly string[] {
  const byFolder = groupBy(paths, (path) => path.slice(0, path.lastIndexOf('/')));
  return [...byFolder].flatMap(([folder, own]) => (own.length > most ? [`${folder}: ${own.length} files`] : []));
}

/** The one in the middle, or the upper one of the two there. */
function median(figures: readonly number[]): number {
  return [...figures].sort((a, b) => a - b)[Math.floor(figures.length / 2)] ?? 0;
}

describe.each([{ what: 'a file of code', where: /\.(tsx?|[cm]js|css)$/, lines: 400 }])('$what', ({ where, lines }) => {
  it(`has at most ${lines} lines, or a reason`, () => {
    const long = files(where).filter((path) => tooLong(read(path), lines));
    expect(long, 'split it, or say at its top: Long because …').toEqual([]);
  });
});

describe('the house', () => {
  const sources = files(SOURCES).map((path) => linesOf(read(path)));

  it(`has at most ${MOST_SOURCES} files of code`, () => {
    expect(sources.length).toBeGreaterThan(0);
    expect(sources.length).toBeLessThanOrEqual(MOST_SOURCES);
  });

  it(`has files that hold a subject whole: ${LEAST_MEDIAN} lines or more in half of them`, () => {
    expect(median(sources)).toBeGreaterThanOrEqual(LEAST_MEDIAN);
  });

  it(`has fewer than ${MOST_LINES} lines of code`, () => {
    expect(sources.reduce((sum, lines) => sum + lines, 0)).toBeLessThan(MOST_LINES);
  });

  it(`has no folder with more than ${MOST_IN_A_FOLDER} files of its own`, () => {
    const ours = FILES.filter((path) => HOUSE.test(path));
    expect(fullFolders(ours, MOST_IN_A_FOLDER), 'give each word of the trade a folder').toEqual([]);
  });
});

describe('the limits', () => {
  it('catch one line too many, and take a reason at the top only', () => {
    expect(tooLong('a\n'.repeat(60), 60)).toBe(false);
    expect(tooLong('a\n'.repeat(61), 60)).toBe(true);
    expect(tooLong(`// Long because it is one table.\n${'a\n'.repeat(61)}`, 60)).toBe(false);
    expect(tooLong(`${'a\n'.repeat(61)}// Long because it is one table.\n`, 60)).toBe(true);
  });

  it('catch one file too many, and count none of a folder within', () => {
    const paths = ['lib/tag/a.ts', 'lib/tag/b.ts', 'lib/tag/old/c.ts', 'lib/tag/old/d.ts', 'lib/tag/old/e.ts'];
    expect(fullFolders(paths, 2)).toEqual(['lib/tag/old: 3 files']);
    expect(fullFolders(paths, 3)).toEqual([]);
  });

  it('find the middle', () => {
    expect([median([9, 1, 5]), median([4, 1, 9, 7]), median([])]).toEqual([5, 7, 0]);
  });
});

/**
 * DEVELOPERS.md beside the tree: what it names exists, its map has every folder, and each walk is a way. A step of a
 * walk imports or names a step before it, or is imported or named by one, directly or through the files that the step
 * has behind "through"; where a request or the book lies in between, the step says so.
 */
import { existsSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FILES, ROOT, read } from './tree.ts';

const PAGE = 'DEVELOPERS.md';
const MOST_STEPS = { price: 30, tag: 18 };
/** Between the browser and the server, and between the server and whoever reads the book later. */
const MOST_GAPS = 2;

const OURS = /^\.?(app|lib|db|seed|tests|docs|ci)\/[^\s<>*…]+$/;

/** What stands in backticks and is a path of this project; a placeholder such as `<word>` makes none. */
const pathsIn = (text: string): string[] =>
  [...text.matchAll(/`([^`\n]+)`/g)].map((match) => match[1] ?? '').filter((path) => OURS.test(path));

interface Step {
  readonly file: string;
  readonly through: readonly string[];
  /** Nothing imports across this: a request, or the book, brings the value here. */
  readonly gap: boolean;
}

function stepsOf(page: string, heading: string): Step[] {
  const section = page.split(/^#{2,3} /m).find((one) => one.startsWith(heading)) ?? '';
  return [...section.matchAll(/^\d+\. (.*)$/gm)].map(([, line = '']) => {
    const [step = '', through = ''] = line.split(/\bthrough\b/);
    const [file = ''] = pathsIn(step);
    return { file, through: pathsIn(through), gap: /^\*(Over HTTP|From the book)\.\*/.test(line) };
  });
}

/** The files that a file imports, or names by their paths. */
function namedBy(path: string): string[] {
  const text = read(path);
  const inWords = [...text.matchAll(/\b(?:app|lib|db)\/[\w/.-]+\.(?:tsx?|mjs)\b/g)].map(([named]) => named);
  const imported = [...text.matchAll(/\b(?:from|import)\s*\(?\s*'([^']+)'/g)].flatMap(([, target = '']) => {
    if (target.startsWith('#')) return [target.slice(1)];
    return target.startsWith('.') ? [normalize(join(dirname(path), target))] : [];
  });
  return [...inWords, ...imported];
}

/** The steps that hang on nothing before them. */
function loose(steps: readonly Step[], named: (path: string) => readonly string[]): string[] {
  const joined = (a: string, b: string) => named(a).includes(b) || named(b).includes(a);
  const before: string[] = [];
  return steps.flatMap(({ file, through, gap }, at) => {
    const reached = [...before];
    const left = [...through, file];
    // In whatever order they are named, each has to hang on what is reached already.
    for (let found = left.find((one) => reached.some((other) => joined(one, other))); found; ) {
      reached.push(...left.splice(left.indexOf(found), 1));
      found = left.find((one) => reached.some((other) => joined(one, other)));
    }
    before.push(...through, file);
    return at === 0 || gap ? [] : left;
  });
}

describe('the guide for contributors', () => {
  const page = read(PAGE);

  it('names only what is there', () => {
    const paths = pathsIn(page);
    expect(paths.length).toBeGreaterThan(60);
    expect(paths.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  });

  it('has every folder of the rules and of the book in its map', () => {
    const map = page.split(/^## /m).find((one) => one.startsWith('The map')) ?? '';
    const words = FILES.flatMap((path) => /^(?:lib|db)\/([\w-]+)\//.exec(path)?.[1] ?? []);
    expect([...new Set(words)].filter((word) => !new RegExp(`\`${word}\``).test(map))).toEqual([]);
  });

  it.each([
    { heading: 'A hammer price', most: MOST_STEPS.price },
    { heading: 'An export tag', most: MOST_STEPS.tag },
  ])('walks $heading in at most $most files, each on the way', ({ heading, most }) => {
    const steps = stepsOf(page, heading);
    const named = steps.flatMap(({ file, through }) => [file, ...through]);
    expect(steps.length).toBeGreaterThan(most / 2);
    expect(steps.length).toBeLessThanOrEqual(most);
    expect(named.filter((file, at) => !FILES.includes(file) || named.indexOf(file) !== at)).toEqual([]);
    expect(steps.filter(({ gap }) => gap).length).toBeLessThanOrEqual(MOST_GAPS);
    expect(loose(steps, namedBy)).toEqual([]);
  });

  it('would see a step that is not on the way', () => {
    const steps = stepsOf('## A\n1. `lib/a.ts`: x\n2. `lib/b.ts`: y, through `lib/c.ts`\n3. `lib/d.ts`: z\n', 'A');
    const imports: Readonly<Record<string, string[]>> = { 'lib/b.ts': ['lib/c.ts'], 'lib/c.ts': ['lib/a.ts'] };
    expect(loose(steps, (path) => imports[path] ?? [])).toEqual(['lib/d.ts']);
    expect(stepsOf('## A\n1. *Over HTTP.* `app/a.ts`: x\n', 'A')).toEqual([
      { file: 'app/a.ts', through: [], gap: true },
    ]);
  });
});

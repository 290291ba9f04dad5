import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GUIDE_PICTURES } from '#tests/screens/support/guide-pictures.ts';
import { files, ROOT, read } from './tree.ts';

const FOLDER = join(ROOT, 'docs/pictures');
const MOST = 12;
const LARGEST = 60_000;
// The first bytes of every PNG, by its specification (ISO/IEC 15948, 5.2).
const PNG = Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]);

const inFolder = existsSync(FOLDER) ? readdirSync(FOLDER).sort() : [];
/** Each picture of a guide with its words for those who cannot see it. */
const shown = files(/^docs\/[a-z-]+\.md$/).flatMap((path) =>
  [...read(path).matchAll(/!\[([^\]]*)\]\(pictures\/([^)]+)\)/g)].map(([, words = '', file = '']) => ({ words, file })),
);

describe('the pictures of the guides', () => {
  it('are few and small, and made by `npm run shots -- --guides`', () => {
    expect(inFolder).toEqual(GUIDE_PICTURES.map(({ name }) => `${name}.png`).sort());
    expect(inFolder.length).toBeLessThanOrEqual(MOST);
    for (const file of inFolder) {
      const bytes = readFileSync(join(FOLDER, file));
      expect(bytes.subarray(0, PNG.length).equals(PNG), file).toBe(true);
      expect(bytes.length, file).toBeLessThanOrEqual(LARGEST);
    }
  });

  it('each stand in a guide, with words that say what is to be seen', () => {
    expect([...new Set(shown.map(({ file }) => file))].sort()).toEqual(inFolder);
    expect(shown.filter(({ words }) => words.split(' ').length < 5)).toEqual([]);
  });
});

describe('a station’s guide', () => {
  const STATIONS = ['set-up', 'intake', 'block', 'board', 'till', 'payout', 'prices', 'office'];
  // A grown reader takes about 240 words of prose a minute (Brysbaert 2019, from memory).
  const FIVE_MINUTES = 5 * 240;

  it.each(STATIONS)('%s.md is read in five minutes, and has a picture', (name) => {
    const text = read(`docs/${name}.md`);
    expect(text.split(/\s+/).length).toBeLessThanOrEqual(FIVE_MINUTES);
    expect(text).toMatch(/!\[[^\]]+\]\(pictures\//);
  });
});

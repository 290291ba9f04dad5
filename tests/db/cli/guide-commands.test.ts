import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { readArguments } from '#db/cli/main.ts';
import { caseFolder, changed, folderOf } from '#tests/support/exchange.ts';
import { cli } from '#tests/support/process.ts';
import { tempFile } from '#tests/support/temp.ts';
import { files, read } from '#tests/tidy/tree.ts';

/** The words behind `book --` of every command that a guide shows; `<what>` and `…` stand for any. */
function commandsOf(text: string): string[][] {
  return [...text.matchAll(/npm run --silent book -- ([^`\n]+)/g)]
    .map(([, words = '']) => words.trim().split(/\s+/))
    .filter((words) => !['<what>', '…'].includes(words[0] ?? ''));
}

describe('the commands that the guides show', () => {
  const shown = files(/^(README|DEVELOPERS|docs\/[\w-]+)\.md$/).flatMap((path) =>
    commandsOf(read(path)).map((words) => [path, words.join(' ')] as const),
  );

  it('are found', () => {
    expect(shown.length).toBeGreaterThan(12);
  });

  it.each(shown)('%s: %s is one', (_path, command) => {
    expect(() => readArguments(command.split(' '), '.')).not.toThrow();
  });
});

describe('moving in, as its guide says', () => {
  it('tries a folder on a book of its own, lists what is wrong, and then takes it', async () => {
    const [init = [], tried = [], taken = [], ...more] = commandsOf(read('docs/moving-in.md')).filter(
      ([name]) => name !== 'import-prices',
    );
    expect(more).toEqual([]);
    const places = new Map([
      ['try.book', tempFile()],
      ['my.book', tempFile()],
    ]);
    const place = (word: string) => places.get(word) ?? word;
    const given = (words: readonly string[], folder: string) =>
      cli(...words.map((word) => (word === 'folder' ? folder : place(word))));
    expect(await given(init, '')).toMatchObject({ code: 0 });
    const wrong = folderOf(changed('by-hand', [['results.csv', '2,sold,7.75', '2,sold,7.755']]));
    const refused = await given(tried, wrong);
    expect(refused.code).toBe(1);
    expect(refused.err).toContain('results.csv:3 price');
    const tryBook = openBook(place('try.book'));
    expect(tryBook.sqlite.prepare('SELECT count(*) FROM sale').pluck().get()).toBe(0);
    tryBook.close();
    const right = caseFolder('by-hand');
    expect(existsSync(place('my.book'))).toBe(false);
    for (const words of [tried, taken]) expect((await given(words, right)).out).toContain('Imported');
    expect(existsSync(place('my.book'))).toBe(true);
  });
});

import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { logHead } from '#db/book/log.ts';
import { openBook, openBookInMemory } from '#db/book/open.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { addDemoWorker } from '#seed/calendar.ts';
import { fillBook } from '#seed/hold-sale.ts';
import { tempFile } from '#tests/support/temp.ts';
import { ROOT } from '#tests/tidy/tree.ts';

function fill(...args: string[]) {
  const tsx = join(ROOT, 'node_modules/tsx/dist/cli.mjs');
  return spawnSync(process.execPath, [tsx, 'seed/fill.ts', ...args], { cwd: ROOT, encoding: 'utf8' });
}

describe('filling the demo book', () => {
  const file = tempFile('demo.book');
  let made: ReturnType<typeof fill>;

  beforeAll(() => {
    made = fill(file);
  });

  it('makes one whole file and says in plain lines what is in it', () => {
    expect(made.stderr).toBe('');
    expect(made.status).toBe(0);
    expect(made.stdout).toContain('Lantern Ridge Fur Harvesters, an invented association');
    expect(made.stdout.match(/sellers, \d+ buyers, \d+ lots/g)).toHaveLength(4);
    expect([`${file}-wal`, `${file}-shm`].filter((companion) => existsSync(companion))).toEqual([]);
  });

  it('makes a book that proves itself: file, chain, replay and money', () => {
    expect(verifyBook(file)).toMatchObject({ ok: true, problems: [] });
  });

  it('comes out the same every time, to the last hash of the log', async () => {
    const book = openBook(file);
    const again = openBookInMemory();
    fillBook(again);
    await addDemoWorker(again);
    expect(logHead(again)).toEqual(logHead(book));
    again.close();
    book.close();
  });

  it('refuses to write over a file, which stays as it was', () => {
    const other = tempFile('letters.txt');
    writeFileSync(other, 'Dear members');
    const refused = fill(other);
    expect(refused.status).toBe(1);
    expect(refused.stderr).toContain('There is already a file');
    expect(readFileSync(other, 'utf8')).toBe('Dear members');
  });

  it('asks for a file where none is named', () => {
    expect(fill()).toMatchObject({ status: 2, stdout: '' });
  });
});

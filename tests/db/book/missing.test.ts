import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keepCopy } from '#db/book/keep-copy.ts';
import { restoreCommand, whyNoBook } from '#db/book/missing.ts';
import { fullBook } from '#tests/support/book-file.ts';
import { tempFolder } from '#tests/support/temp.ts';

const BOOK = fullBook();
const place = () => {
  const folder = tempFolder('place');
  return { folder, file: join(folder, 'lantern.book'), folders: [join(folder, 'backups')] };
};

describe('the start without a book', () => {
  it('may make one where nobody said a place and nothing speaks of a book', () => {
    const { file, folder, folders } = place();
    expect(whyNoBook(file, { configured: false, folders })).toBeNull();
    expect(whyNoBook(join(folder, 'none yet', 'lantern.book'), { configured: false, folders })).toBeNull();
    expect(readdirSync(folder)).toEqual([]);
  });

  it('says nothing of a book that is there', () => {
    expect(whyNoBook(BOOK, { configured: true, folders: [join(dirname(BOOK), 'backups')] })).toBeNull();
  });

  it('makes none at a path that somebody typed, and says how one is made', () => {
    const { file, folders } = place();
    const why = whyNoBook(file, { configured: true, folders });
    expect(why).toMatch(
      /^There is no book at .*lantern\.book\.\nNone is made by itself, because the path may be mistyped/,
    );
    expect(why).toContain(`npm run --silent book -- init --book ${file}`);
    expect(why).not.toContain('restore');
  });

  it('makes none in the place of an empty file, and has it moved away first', () => {
    const { file, folders } = place();
    writeFileSync(file, '');
    const why = whyNoBook(file, { configured: false, folders });
    expect(why).toMatch(/lantern\.book is empty\./);
    expect(why).toMatch(/\nlantern\.book may hold a part of the book: move it to another folder first/);
  });

  it('makes none beside another book or a write-ahead log, and names them', () => {
    const { file, folder, folders } = place();
    writeFileSync(join(folder, 'latern.book'), 'x');
    writeFileSync(`${file}-wal`, 'x');
    const why = whyNoBook(file, { configured: false, folders });
    expect(why).toContain(
      `Beside it are: latern.book. To open one: PELTRY_BOOK=${join(folder, 'latern.book')} npm start`,
    );
    expect(why).toContain('lantern.book-wal may hold a part of the book');
  });

  it('makes none where a backup is, and names the newest', async () => {
    const { file, folders } = place();
    const [folder = ''] = folders;
    mkdirSync(folder);
    for (const hour of ['09', '10']) {
      // A copy bears the name of its book, so it is made of one of that name.
      await keepCopy(BOOK, folder, new Date(`2026-02-28T${hour}:00:00Z`));
    }
    const here = { configured: false, folders };
    expect(whyNoBook(file, here)).toContain(`init --book ${file}`);
    const own = join(dirname(file), 'sale.book');
    const newest = join(folder, 'sale-20260228T100000000Z.book');
    expect(whyNoBook(own, here)).toContain(
      `the newest whole backup, of Feb 28, 2026, 10:00 AM UTC: npm run --silent book -- restore ${newest} --book ${own}`,
    );
    writeFileSync(newest, 'no book any more');
    const older = join(folder, 'sale-20260228T090000000Z.book');
    expect(whyNoBook(own, here)).toContain(
      `of Feb 28, 2026, 9:00 AM UTC: npm run --silent book -- restore ${older} --book`,
    );
  });

  it('puts a path with blanks between quotes', () => {
    expect(restoreCommand('/a stick/x.book', '/b/y.book')).toBe(
      'npm run --silent book -- restore "/a stick/x.book" --book /b/y.book',
    );
  });
});

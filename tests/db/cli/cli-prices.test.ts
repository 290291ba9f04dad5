import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { listedSeasons } from '#db/price/lists.ts';
import { cli, onDisk } from '#tests/support/process.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const GOOD =
  'season,goods,section,size,grade,count,price\r\n1998-99,mink,west,L,I,40,9.50\r\n1998-99,mink,,M,,12,7.25\r\n';

it('a plain price list is taken in by the command line, or every problem told and the book as it was', async () => {
  const folder = tempFolder();
  const file = join(folder, 'old.csv');
  const book = tempFile();
  expect(await cli('init', '--book', book)).toMatchObject({ code: 0 });
  const before = onDisk(book).sha256;
  writeFileSync(file, GOOD.replace('9.50', '9,5').replace('12,7.25', 'a dozen,7.255').replace('grade', 'grad'));
  const refused = await cli('import-prices', file, '--book', book);
  expect(refused.code).toBe(1);
  const places = refused.err
    .trim()
    .split('\n')
    .map((line) => line.slice(0, line.indexOf(': ')));
  expect(places).toEqual(['old.csv:1 grad', 'old.csv:2 -', 'old.csv:3 count', 'old.csv:3 price']);
  expect(onDisk(book).sha256).toBe(before);
  expect(await cli('import-prices', join(folder, 'none.csv'), '--book', book)).toMatchObject({ code: 1 });
  writeFileSync(file, GOOD);
  expect(await cli('import-prices', file, '--book', book)).toMatchObject({ code: 0, err: '' });
  expect(await cli('import-prices', file, '--book', book)).toMatchObject({ code: 1 });
  expect(await cli('replace-prices', file, '--book', book)).toMatchObject({ code: 0 });
  const opened = openBook(book);
  expect(listedSeasons(opened)).toEqual([{ season: '1998-99', line: 2 }]);
  opened.close();
});

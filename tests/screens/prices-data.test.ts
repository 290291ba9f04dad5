import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/open.ts';
import { importFiles } from '#tests/support/exchange.ts';
import { caseFolder, filesIn } from '#tests/support/folder.ts';
import { hallOf } from '#tests/support/hall.ts';
import { rowsBySchema } from '#tests/support/table-schema.ts';
import { tempFile } from '#tests/support/temp.ts';
import { type Server, startServer } from './support/server.ts';

interface Resource {
  readonly path: string;
  readonly schema: object;
}

const bookFile = tempFile();
let server: Server;

beforeAll(async () => {
  const book = openBook(bookFile, { create: true });
  importFiles(book, filesIn(caseFolder('sixty-lots')));
  const { must } = hallOf(book, 0);
  must('prices.fewest', { fewest: 1 });
  const old = { season: '1998-99', goods: 'mink', size: 'L', count: '40', price: '9.50' };
  must('prices.import', {
    file: 'old.csv',
    rows: [
      [2, old],
      [3, { ...old, size: 'M', price: '7.25' }],
    ],
  });
  book.close();
  server = await startServer({ bookFile });
});

afterAll(() => server?.stop());

const get = (path: string) => fetch(new URL(path, `${server.url}/prices/data/datapackage.json`));

describe('the open data, by the judge of the Table Schema standard', () => {
  it('are as their descriptor says, season by season, at addresses relative to it', async () => {
    const { resources } = (await (await get('datapackage.json')).json()) as { resources: Resource[] };
    expect(resources.map(({ path }) => path)).toEqual(['2025-26.csv', '1998-99.csv']);
    for (const { path, schema } of resources) {
      const rows = await rowsBySchema(schema, await (await get(path)).text());
      expect(rows.length, path).toBeGreaterThan(2);
      const list = path.startsWith('1998');
      expect(new Set(rows.map(({ source }) => source)), path).toEqual(new Set([list ? 'list' : 'sales']));
      expect(
        rows.every(({ sellers }) => (sellers === null) === list),
        path,
      ).toBe(true);
    }
  });

  it('would be found out with a word among the figures, an unknown measure, or a row that stands twice', async () => {
    const { resources } = (await (await get('datapackage.json')).json()) as { resources: Resource[] };
    const [first] = resources;
    const csv = await (await get(first?.path ?? '')).text();
    const [header = '', row = ''] = csv.split('\r\n');
    for (const bad of [row.replace(/,\d+\.\d\d,/, ',dear,'), row.replace(',piece,', ',dozen,'), `${row}\r\n${row}`]) {
      expect(bad).not.toBe(row);
      await expect(rowsBySchema(first?.schema, `${header}\r\n${bad}\r\n`), bad).rejects.toThrow();
    }
  });
});

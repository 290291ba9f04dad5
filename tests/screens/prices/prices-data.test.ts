import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { caseFolder, filesIn, importFiles } from '#tests/support/exchange.ts';
import { hallOf } from '#tests/support/hall.ts';
import { rowsBySchema } from '#tests/support/judges.ts';
import { fillYears, seasonHeldIn } from '#tests/support/prices.ts';
import { tempFile } from '#tests/support/temp.ts';

/** `PELTRY_PRICE_YEARS=30x5000`: so many seasons of so many lots, for measuring; the check has a small book. */
const [SEASONS = 0, LOTS = 0] = (process.env.PELTRY_PRICE_YEARS ?? '3x400').split('x').map((part) => Number(part));
const ROUNDS = process.env.PELTRY_TIMED ? 60 : 2;
const bookFile = tempFile();
let server: Server;

/** The seasons, then the case of sixty lots as the newest one, and a plain price list of an old year. */
beforeAll(async () => {
  fillYears(bookFile, { seasons: SEASONS, lots: LOTS });
  const book = openBook(bookFile);
  importFiles(book, filesIn(caseFolder('sixty-lots')));
  const { must } = hallOf(book, 0);
  must('prices.fewest', { fewest: 1 });
  const old = { season: '1988-89', goods: 'raccoon', size: 'L', count: '40', price: '9.50' };
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

const years = Array.from({ length: SEASONS }, (_, ago) => seasonHeldIn(2025 - ago));
const ALL = ['2025-26', ...years, '1988-89'];

describe('the prices of many seasons', () => {
  // Asked for one after another, whole answers, after each was asked for once: a season is worked out when somebody
  // asks for it first, and kept. With PELTRY_TIMED the answers are held to 50 ms in 95 of 100.
  it('have every season on the page of a kind, and are kept from one reader to the next', async () => {
    const mine = '/prices/mine?my+raccoon+piece=40&my+beaver+piece=12&as=member';
    const pages = [
      '/prices',
      `/prices?season=${years.at(-1)}`,
      '/prices/raccoon',
      '/prices/raccoon?section=east&size=L',
      mine,
    ];
    const paths = [...pages, '/prices/report', `/prices/data/${years[0]}.csv`];
    const first = await asked(paths);
    const again = await asked(Array.from({ length: ROUNDS }, () => paths).flat());
    console.log(
      `${SEASONS} seasons of ${LOTS} lots, the first time: ${paths.map((path, at) => `${path} ${first[at]?.ms}`).join(', ')} ms`,
    );
    for (const path of paths) console.log(`${path}: ${inWords(again.filter((one) => one.path === path))}`);
    console.log(`all: ${inWords(again)}`);
    expect(new Set([...first, ...again].map(({ status }) => status))).toEqual(new Set([200]));
    const raccoon = first.find(({ path }) => path === '/prices/raccoon')?.text ?? '';
    for (const season of ALL) expect(raccoon.includes(`<span>${season}</span>`), season).toBe(true);
    for (const { path, text } of again)
      expect(tables(text), path).toEqual(tables(first.find((one) => one.path === path)?.text ?? ''));
    if (process.env.PELTRY_TIMED) expect(percentile(again, 0.95)).toBeLessThanOrEqual(50);
  });
});

interface Answer {
  readonly path: string;
  readonly status: number;
  readonly text: string;
  readonly ms: number;
}

async function asked(paths: readonly string[]): Promise<Answer[]> {
  const answers: Answer[] = [];
  for (const path of paths) {
    const from = performance.now();
    const answer = await fetch(`${server.url}${path}`);
    const text = await answer.text();
    answers.push({ path, status: answer.status, text, ms: Math.round((performance.now() - from) * 10) / 10 });
  }
  return answers;
}

const tables = (html: string) => html.match(/<table.*?<\/table>/gs) ?? html;

/** By the nearest rank. */
function percentile(answers: readonly Answer[], share: number): number {
  const times = answers.map(({ ms }) => ms).sort((a, b) => a - b);
  return times[Math.ceil(times.length * share) - 1] ?? Number.NaN;
}

const inWords = (answers: readonly Answer[]) =>
  `${answers.length} answers, median ${percentile(answers, 0.5)} ms, p95 ${percentile(answers, 0.95)} ms`;

const get = (path: string) => fetch(new URL(path, `${server.url}/prices/data/datapackage.json`));

interface Resource {
  readonly path: string;
  readonly schema: object;
}

describe('the open data, by the judge of the Table Schema standard', () => {
  it('are as their descriptor says, season by season, at addresses relative to it', async () => {
    const { resources } = (await (await get('datapackage.json')).json()) as { resources: Resource[] };
    expect(resources.map(({ path }) => path)).toEqual(ALL.map((season) => `${season}.csv`));
    for (const { path, schema } of resources) {
      const rows = await rowsBySchema(schema, await (await get(path)).text());
      expect(rows.length, path).toBeGreaterThan(2);
      const list = path.startsWith('1988');
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

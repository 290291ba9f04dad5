import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { makeCertificate } from '#db/certificate/certificate.ts';
import { certificateFile } from '#db/certificate/names.ts';
import { sellerCode } from '#db/outcome/board-view.ts';
import { fillBook } from '#seed/hold-sale.ts';
import { freePort, raw, wordsOf } from '#tests/screens/support/http.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';
import { inSpan, type Ranged, rangedRows, type SoldLot, soldLots, spanOf } from './rebuild.ts';

/**
 * Somebody collects everything that the demo says to people who are not signed in, and works backwards from it: every
 * range is a sum over unknown lots, the Board gives single ones, and what can be added up and taken away is what follows.
 * Neither a price of too few sellers or buyers nor what a seller took in may come out.
 */
const FEWEST = 3;
const LEVELS = ['section', 'size', 'grade', 'form'] as const;

interface PriceJson {
  readonly season: string;
  readonly rows: readonly Ranged[];
}
interface BoardJson {
  readonly results: readonly { readonly lotNo: string; readonly price: string }[];
}

const bookFile = tempFile('demo.book');
let server: Server;
let lines: readonly { readonly url: string; readonly ca?: string }[];
let sold: readonly SoldLot[];
let names: readonly string[];
let code = '';
/** Every address that was asked, with its answer, as the open line gave it. */
const answers = new Map<string, string>();

beforeAll(async () => {
  const book = openBook(bookFile, { create: true });
  fillBook(book);
  expect(await makeCertificate(book, new Date())).toMatchObject({ ok: true });
  sold = soldLots(book.sqlite);
  names = book.sqlite.prepare<[], string>('SELECT name FROM person').pluck().all();
  code = sellerCode(book, 4, 2);
  book.close();
  const port = await freePort();
  server = await startServer({ bookFile, env: { SECURE_PORT: String(port) } });
  const ca = readFileSync(certificateFile(bookFile, 'authority'), 'utf8');
  lines = [{ url: server.url }, { url: `https://127.0.0.1:${port}`, ca }];
  const all = addresses();
  for (let at = 0; at < all.length; at += 8) {
    const some = all.slice(at, at + 8);
    for (const [place, text] of (await Promise.all(some.map(said))).entries()) answers.set(some[place] ?? '', text);
  }
});
afterAll(() => server?.stop());

/** What says how to come in differs from line to line. */
const BY_LINE = ['/join', '/api/join', '/sign-in', '/prices/own'];

/** Asks on both lines, which say the same. */
async function said(path: string): Promise<string> {
  // Filters are the bulk, and give what they give by the same rows: they are asked on the open line.
  const where = /\?(section|size|grade|form)=/.test(path) ? lines.slice(0, 1) : lines;
  const got = await Promise.all(where.map(({ url, ca }) => raw(`${url}${path}`, { ...(ca && { ca }) })));
  const words = got.map(({ status, text, headers }) => {
    const type = headers['content-type'] ?? '';
    return `${status} ${type.includes('html') ? wordsOf(text) : type.includes('json') || type.includes('csv') ? text : ''}`;
  });
  if (!BY_LINE.includes(path)) expect(new Set(words).size, path).toBe(1);
  const [open] = got;
  if (open?.status !== 200) return '';
  return open.text.startsWith('%PDF') ? pdfWords(path) : open.text;
}

/** A text of bytes is no text: a paper is fetched again as it is. */
function pdfWords(path: string): string {
  const bytes = execFileSync('curl', ['-s', `${lines[0]?.url}${path}`], { maxBuffer: 1e8 });
  return execFileSync('pdftotext', ['-layout', '-', '-'], { input: bytes, encoding: 'utf8' });
}

const unique = (values: readonly string[]) => [...new Set(values)];
const seasonsOf = () => unique(sold.map(({ season }) => season));
const encoded = encodeURIComponent;

/** Each value alone, and each lot's values from the section down as the pages link them, with every level left out once. */
function filtersOf(lots: readonly SoldLot[]): string[] {
  const words = (lot: SoldLot, levels: readonly (typeof LEVELS)[number][]) =>
    `${new URLSearchParams(levels.map((level) => [level, level === 'form' ? lot.form.replace(' ', '_') : lot[level]]))}`;
  const choices = [...LEVELS.map((level) => [level]), ...LEVELS.map((_, at) => LEVELS.slice(0, at + 1))];
  return unique([...choices, LEVELS.slice(1, 3)].flatMap((levels) => lots.map((lot) => words(lot, levels))));
}

/** Every public address with everything that it takes: sales, seasons, kinds, and each filter alone and with each other. */
function addresses(): string[] {
  const sales = [1, 2, 3, 4].flatMap((id) => [
    ...[`/board?sale=${id}`, `/api/views/board?sale=${id}`, `/board/seller?sale=${id}&no=2`],
    `/board/seller?sale=${id}&no=2&code=${code}`,
  ]);
  const seasons = seasonsOf().flatMap((season) => [
    ...[`/prices?season=${encoded(season)}`, `/prices/report?season=${encoded(season)}`],
    `/prices/report/pdf?season=${encoded(season)}`,
    ...['csv', 'json'].map((form) => `/prices/data/${encoded(season)}.${form}`),
  ]);
  const kinds = unique(sold.map(({ goods }) => goods)).flatMap((goods) =>
    filtersOf(sold.filter((lot) => lot.goods === goods)).map((words) => `/prices/${goods}?${words}`),
  );
  const perSeason = unique(sold.map(({ goods }) => goods)).flatMap((goods) =>
    seasonsOf().map((season) => `/prices/${goods}?season=${encoded(season)}`),
  );
  const mine = unique(sold.map(({ goods, measure }) => `${goods} ${measure}`)).map(
    (key) =>
      `/prices/mine?${new URLSearchParams([
        [`my ${key}`, '100'],
        ['as', 'member'],
      ])}`,
  );
  return [
    ...['/board', '/board/seller', '/prices', '/prices/data/datapackage.json', '/prices/mine', '/prices/own', '/join'],
    ...['/help', '/api/join', '/api/openapi.json', '/sign-in', ...sales, ...seasons, ...kinds, ...perSeason, ...mine],
  ];
}

const json = <T>(path: string) => JSON.parse(answers.get(path) ?? '') as T;
const published = (season: string) =>
  rangedRows(
    json<PriceJson>(`/prices/data/${encoded(season)}.json`).rows,
    sold.filter((lot) => lot.season === season),
  );
/** The lots whose single prices the Board says now. */
const aloud = () => {
  const results = [1, 2, 3, 4].flatMap((id) =>
    json<BoardJson>(`/api/views/board?sale=${id}`).results.map(({ lotNo }) => `${id} ${lotNo}`),
  );
  return new Set(results);
};
const isNarrow = (lots: readonly SoldLot[]) =>
  new Set(lots.map(({ business }) => business)).size < FEWEST || new Set(lots.map(({ buyer }) => buyer)).size < FEWEST;

/** Every group of lots that has a name: a kind, by any of its values, of a season or a sale; and each seller's lots. */
function groupsOf(season: string): { readonly name: string; readonly lots: readonly SoldLot[] }[] {
  const groups = new Map<string, SoldLot[]>();
  const put = (name: string, lot: SoldLot) => groups.set(name, [...(groups.get(name) ?? []), lot]);
  for (const lot of sold.filter((one) => one.season === season)) {
    for (let fixed = 0; fixed < 2 ** LEVELS.length; fixed += 1) {
      const values = LEVELS.filter((_, at) => fixed & (1 << at)).map((level) => `${level} ${lot[level]}`);
      put([lot.goods, lot.measure, ...values].join(', '), lot);
      put([`sale ${lot.saleId}`, lot.goods, lot.measure, ...values].join(', '), lot);
    }
    put(`seller ${lot.business}`, lot);
    put(`seller ${lot.business}, ${lot.goods}`, lot);
    put(`seller ${lot.business}, sale ${lot.saleId}`, lot);
    put(`buyer ${lot.buyer}`, lot);
    put(`lot ${lot.id}`, lot);
  }
  return [...groups].map(([name, lots]) => ({ name, lots }));
}

describe('everything that the demo says in public', () => {
  it('was collected: Board, prices, filters, files and papers', () => {
    const there = [...answers].filter(([, text]) => text !== '').map(([path]) => path);
    expect(there.length).toBeGreaterThan(150);
    expect(answers.size).toBeGreaterThan(500);
    expect(there.filter((path) => path.includes('pdf'))).toHaveLength(4);
    expect(there).toContain('/prices/raccoon?section=Prairie');
    expect(aloud().size).toBe(7);
  });

  it('has no range on a page or a paper that is not in the files, so that filters give no further sums', () => {
    const figures = new Set<string>();
    for (const season of seasonsOf()) {
      for (const { row } of published(season)) figures.add(figuresOf(row));
    }
    let compared = 0;
    for (const [path, text] of answers) {
      for (const cells of rangeCells(text)) {
        expect(figures.has(cells), `${path}: ${cells}`).toBe(true);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(500);
    const said = new Set([...figures].flatMap((row) => row.split(' ')));
    const onPaper = [...answers].filter(([path]) => path.includes('pdf'));
    for (const [path, text] of onPaper)
      for (const [price] of text.matchAll(/\d[\d,]*\.\d\d/g)) expect(said.has(price.replace(',', '')), path).toBe(true);
  });

  it('shows no range that stands on too few, also without the lots that the Board says one by one', () => {
    const one = aloud();
    for (const season of seasonsOf())
      for (const { row, lots } of published(season)) {
        expect(lots.length, `${season} ${row.goods} ${row.part}`).toBe(row.lots);
        const rest = lots.filter(({ id }) => !one.has(id));
        expect(isNarrow(rest), `${season} ${row.goods} ${row.part}`).toBe(false);
      }
  });

  it('gives no withheld price and no seller’s total, whatever is added up and taken away', () => {
    const one = aloud();
    let tried = 0;
    for (const season of seasonsOf()) {
      const lots = sold.filter((lot) => lot.season === season);
      const known = [
        ...published(season).map((range) => range.lots),
        ...lots.filter(({ id }) => one.has(id)).map((lot) => [lot]),
      ];
      const span = spanOf(known, lots);
      // The attack works: what is said can be put together from what is said.
      for (const range of known) expect(inSpan(span, range)).toBe(true);
      for (const { name, lots: group } of groupsOf(season)) {
        const rest = group.filter(({ id }) => !one.has(id));
        if (rest.length === 0 || !isNarrow(rest)) continue;
        tried += 1;
        expect(inSpan(span, group), `${season}: ${name}`).toBe(false);
      }
    }
    expect(tried).toBeGreaterThan(1000);
  });

  it('names nobody, and follows a number only with its code, only while it is sold', () => {
    for (const [path, text] of answers) {
      if (path.includes(`code=${code}`)) continue;
      const found = names.filter((name) => wordsOf(text).includes(name));
      expect(found, path).toEqual([]);
    }
    const followed = [...answers].filter(
      ([path, text]) => path.startsWith('/board/seller') && wordsOf(text).includes('Seller 2,'),
    );
    expect(followed.map(([path]) => path)).toEqual([`/board/seller?sale=4&no=2&code=${code}`]);
  });
});

const MONEY = ['low', 'p25', 'median', 'p75', 'high', 'average'] as const;

function figuresOf(row: Ranged): string {
  return [row.lots, ...MONEY.map((name) => row[name])].join(' ');
}

/** The rows of range tables: how many lots, and six prices. */
function rangeCells(html: string): string[] {
  const rows = html.match(/<tr><th scope="row"[\s\S]*?<\/tr>/g) ?? [];
  return rows.flatMap((row) => {
    if (!row.includes('data-head="Median"')) return [];
    const cells = [...row.matchAll(/<td[^>]*data-head="([^"]+)"[^>]*>([\s\S]*?)<\/td>/g)];
    const by = new Map(cells.map(([, head = '', cell = '']) => [head, wordsOf(cell).replace(/[,$\s]/g, '')]));
    const heads = ['Lots', 'Low', 'Quarter', 'Median', 'Three quarters', 'High', 'Average'];
    return [heads.map((head) => by.get(head) ?? '').join(' ')];
  });
}

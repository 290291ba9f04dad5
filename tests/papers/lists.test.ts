import { beforeAll, describe, expect, it } from 'vitest';
import type { Paper } from '#app/papers/kinds.ts';
import { pagesOfList } from '#app/papers/list/pages.ts';
import { renderSheets } from '#app/papers/render.ts';
import { bidSheet, blockSheet } from '#lib/paper/block-papers.ts';
import type { ListPaper, ListTable } from '#lib/paper/list.ts';
import { receipt } from '#lib/paper/receipt.ts';
import { officerList, resultsSheet, saleList } from '#lib/paper/sale-papers.ts';
import { GROUND, LIST_LOTS, paperLot } from '#tests/papers/support/lots.ts';
import { checked, fonts, oneSpaced, pageSizes, type ReadBack, readBack, wordsIn } from '#tests/papers/support/pdf.ts';
import { person, sellerFile } from '#tests/papers/support/sheets.ts';
import { charge, goods, money, sale, seller, terms } from '#tests/support/facts.ts';

// Names with letters that a lesser typeface drops: L with a stroke, N with a tilde, the okina of Hawaiian (U+02BB).
const PEOPLE = [
  person('P1', { name: 'Zofia Łódź-Żak', licenceNo: 'T-100' }),
  person('P2', { name: 'Iñigo Ñandú', licenceNo: '' }),
  person('P3', { name: 'Keliʻi ʻOkina' }),
];
const ROUGH = sale({ terms: terms({ sellerNumberFeeCents: money('5.00'), lotFeeCents: money('0.25') }) });
const FILE = sellerFile({
  sale: ROUGH,
  goods: [goods('raccoon', { name: 'Raccoon' })],
  people: PEOPLE,
  seller: seller(2, {
    partners: PEOPLE.map(({ personId }) => ({ personId, memberUntil: '2026-12-31', parts: 1 })),
  }),
  charges: [
    charge({ sellerNo: 2, how: 'cash' }),
    charge({ sellerNo: 2, kind: 'advance', amountCents: money('1250.00'), note: 'Ñ, by check' }),
  ],
});
const OWN = LIST_LOTS.filter(({ sellerNo }) => sellerNo === 2);

const PAPERS: readonly ListPaper[] = [
  saleList(GROUND, LIST_LOTS),
  officerList(GROUND, LIST_LOTS, [FILE]),
  blockSheet(GROUND, LIST_LOTS),
  bidSheet(GROUND, LIST_LOTS, { buyerNo: 12, name: 'Ada Ńowak' }),
  bidSheet(GROUND, LIST_LOTS, null),
  resultsSheet(GROUND, LIST_LOTS),
  receipt(GROUND, FILE, { lots: OWN, code: 'KXRM-4TQZ' }),
];

/** Every text of a model, wherever in it. */
function everyText(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, part]) => (NOT_PRINTED.has(key) ? [] : everyText(part)));
}

/** What a model says to the layout and not to the reader; `none` only stands where there are no rows. */
const NOT_PRINTED = new Set(['paper', 'kind', 'issuedOn', 'hash', 'none', 'heldOn']);

/** The words one after the other: a column wrapped beside another may tear a sentence apart. */
function missingFrom(text: string, wanted: readonly string[]): string[] {
  const words = new Set(text.split(' '));
  return wanted.filter(
    (one) =>
      !oneSpaced(one)
        .trim()
        .split(' ')
        .every((word) => words.has(word)),
  );
}

/** The words of a row's cells, in their order, as they stand on one line where nothing is wrapped. */
function lineOfRow(row: ListTable['rows'][number]): string {
  return row
    .map(({ words }) => words)
    .filter((words) => words !== '')
    .join(' ');
}

// A4 is narrower: the two with the most columns and the most words stand for the others.
describe.each([
  ['letter', PAPERS],
  ['a4', PAPERS.filter(({ title }) => title === 'Block sheet' || title === 'Receipt of goods')],
] as const)('on %s', (size, papers) => {
  const drawn = new Map<ListPaper, ReadBack>();
  beforeAll(async () => {
    for (const paper of papers) drawn.set(paper, readBack(await renderSheets([paper], { size })));
  });
  const backOf = (paper: ListPaper): ReadBack => {
    const back = drawn.get(paper);
    if (!back) throw new Error(`${paper.title} was not drawn`);
    return back;
  };

  it.each([...papers])('$title: every word and figure of the model is on the paper', (paper) => {
    expect(missingFrom(backOf(paper).text, everyText(paper))).toEqual([]);
  });

  it.each([...papers])('$title: each lot stands in one line with its figures, in the order of the model', (paper) => {
    const lines = backOf(paper).pages.flatMap((page) => page.split('\n').map((line) => oneSpaced(line).trim()));
    for (const { rows } of paper.tables) {
      const simple = rows.map(lineOfRow).filter((line) => /^4\d\d /.test(line));
      expect(lines.filter((line) => simple.includes(line))).toEqual(simple);
    }
  });

  it.each([...papers])('$title: a file without a fault in embedded fonts, its pages counted and headed', (paper) => {
    const back = backOf(paper);
    expect(checked(back)).toContain('No syntax or stream encoding errors found');
    for (const font of fonts(back)) expect(font).toMatchObject({ embedded: true, unicode: true });
    expect(new Set(pageSizes(back))).toEqual(new Set([size === 'a4' ? '595.28 x 841.89' : '612 x 792']));
    const said = back.pages.map((page) => /Page (\d+) of (\d+)/.exec(page)?.slice(1).map(Number));
    expect(said).toEqual(back.pages.map((_, at) => [at + 1, back.pages.length]));
    for (const page of back.pages.slice(1)) expect(oneSpaced(page)).toContain(`${paper.sale.name} · ${paper.title}`);
    const withLots = back.pages.filter((page) => /^4\d\d +/m.test(page));
    for (const page of withLots) expect(page).toMatch(/Lot +Goods/);
  });
});

describe('what each paper says', () => {
  const [list, tags, block, bids, blank, results, slip] = PAPERS;
  const textOf = (paper: ListPaper | undefined) => oneSpaced(everyText(paper).join(' | '));

  it('the sale list has every lot in the order given, and no minimum', () => {
    expect(list?.tables[0]?.rows.map(([no]) => no?.words)).toEqual(LIST_LOTS.map(({ lotNo }) => lotNo));
    expect(textOf(list)).not.toMatch(/7\.25|25\.00|[Mm]inimum/);
    expect(textOf(list)).toContain('on hold');
  });

  it('the tag list has every tagged lot with its tags, and what holds a lot back', () => {
    const [held, tagged] = tags?.tables ?? [];
    expect(held?.rows.map(([no]) => no?.words)).toEqual(['16']);
    expect(tagged?.rows.map(([no]) => no?.words)).toEqual(['12', '16', '17']);
    expect(tagged?.sum).toBe('3 lots, 110 export tags');
    expect(textOf(tags)).toContain('US-CITES WY BOB 2025 000101 to 000118');
    expect(textOf(tags)).toContain('Iñigo Ñandú: no licence on record');
    expect(textOf(tags)).toContain('are the wildlife agency’s to judge');
    expect(tags?.caution).toContain('Nothing on this paper is advice of law.');
  });

  it('the block and bid sheets have only what is still open, with places to write in', () => {
    const open = LIST_LOTS.filter(({ outcome }) => outcome === null).length;
    for (const sheet of [block, bids, blank]) {
      expect(sheet?.tables[0]?.rows).toHaveLength(open);
      for (const no of ['18', '19', '20', '21']) {
        expect(sheet?.tables[0]?.rows.some(([first]) => first?.words === no)).toBe(false);
      }
    }
    expect(block?.tables[0]?.columns.filter(({ kind }) => kind === 'blank').map(({ words }) => words)).toEqual([
      'Price',
      'Buyer',
      'Time',
    ]);
    // A left bid is the clerk's alone.
    expect(textOf(block)).toContain('left bid of buyer 11: 31.50');
    for (const other of PAPERS.filter((paper) => paper !== block)) expect(textOf(other)).not.toContain('31.50');
    expect(bids?.number).toEqual({ label: 'Buyer', words: '12' });
    expect(blank?.number).toEqual({ label: 'Buyer', words: '' });
  });

  it('the results have what was called, the price with what it stands for, and no name', () => {
    expect(results?.tables[0]?.rows.map((row) => row.map(({ words }) => words))).toEqual([
      ['18', 'Raccoon', '', '12 pieces', '112.75 each', '1,353.00', '10'],
      ['19', 'Raccoon', '', '4 pieces', '41.50 the lot', '41.50', '11'],
      ['20', 'Raccoon', '', '12 pieces', 'no-sale', '', ''],
      ['21', 'Raccoon', '', '12 pieces', 'withdrawn', '', ''],
      ['22', 'Raccoon', '', '12 pieces', 'bought back', '', ''],
      ['23', 'Raccoon', '', '12 pieces', 'not paid for', '', ''],
    ]);
    expect(results?.tables[0]?.sum).toBe('6 lots called, 2 sold');
  });

  it('the receipt has the lots, the tags, what was charged and how, the terms, and is no advice of law', () => {
    const charged = slip?.tables[1]?.rows.map((row) => row.map(({ words }) => words));
    expect(charged).toEqual([
      ['Dues', 'paid in cash', '25.00'],
      ['Advance: Ñ, by check', 'taken off the settlement', '1,250.00'],
    ]);
    expect(slip?.tables[0]?.sum).toBe('4 lots, 109 pieces');
    for (const words of [
      'A seller number costs 5.00 USD.',
      'Each lot sold or passed costs 0.25 USD.',
      'On hold. Lot 16',
    ]) {
      expect(textOf(slip)).toContain(words);
    }
    expect(slip?.caution).toContain('Nothing on this paper is advice of law.');
    expect(slip?.signatures).toHaveLength(2);
  });

  it('a long list fills its pages, and leaves no page with a row or two that was left over', async () => {
    const lots = Array.from({ length: 90 }, (_, at) =>
      paperLot(String(at + 1), {
        size: 'XL',
        grade: 'II',
        section: 'Foothills',
        note: at % 9 ? '' : 'rubbed on one side',
      }),
    );
    for (const paper of [blockSheet(GROUND, lots), saleList(GROUND, lots)]) {
      const back = readBack(await renderSheets([paper], { size: 'letter' }));
      const foot = { x: 36, y: 640, width: 540, height: 104 };
      const atFoot = back.pages.slice(0, -1).map((_, at) => wordsIn(back, { page: at + 1, part: foot }));
      for (const words of atFoot) expect(words).toContain('pieces');
      expect(back.pages).toHaveLength(pagesOfList(paper, 'letter').length);
      const found = [...back.text.matchAll(/(?<= |^)(\d+) Raccoon/g)].map(([, no]) => no);
      expect(found).toEqual(lots.map(({ lotNo }) => lotNo));
    }
  });

  it('no row goes over to the next page alone, and a table of few rows is not divided', () => {
    const lot = (at: number) => paperLot(String(at + 1));
    const [table] = saleList(
      GROUND,
      Array.from({ length: 60 }, (_, at) => lot(at)),
    ).tables;
    if (!table) throw new Error('a sale list has a table');
    for (let before = 1; before <= 45; before += 1) {
      for (const after of [2, 4, 12]) {
        const parts = [table.rows.slice(0, before), table.rows.slice(0, after)].map((rows) => ({ ...table, rows }));
        const pages = pagesOfList({ ...saleList(GROUND, []), tables: parts }, 'letter').map((page) =>
          page.map(({ rows }) => rows.length),
        );
        expect(pages.flat().reduce((so, one) => so + one, 0)).toBe(before + after);
        for (const [first] of pages.slice(1))
          expect(first, `${before}, ${after}`).toBeGreaterThanOrEqual(Math.min(3, after));
        if (after <= 4) expect(pages.at(-1)?.at(-1), `${before}, ${after}`).toBe(after);
      }
    }
  });

  it('a table that goes on overleaf says again whose rows they are', () => {
    const [table] = saleList(
      GROUND,
      Array.from({ length: 90 }, (_, at) => paperLot(String(at + 1))),
    ).tables;
    if (!table) throw new Error('a sale list has a table');
    const paper = { ...saleList(GROUND, []), tables: [{ ...table, title: 'Seller 4: Ada Birch' }] };
    const titles = pagesOfList(paper, 'letter').map(([one]) => one?.title);
    expect(titles.length).toBeGreaterThan(1);
    expect(titles[0]).toBe('Seller 4: Ada Birch');
    expect(new Set(titles.slice(1))).toEqual(new Set(['Seller 4: Ada Birch, continued']));
  });

  it('a letter that the typeface lacks is seen to be missing', async () => {
    const papers: Paper[] = [bidSheet(GROUND, LIST_LOTS.slice(0, 2), { buyerNo: 1, name: '山田 Tarō' })];
    const back = readBack(await renderSheets(papers, { size: 'letter' }));
    expect(back.text).toContain('\u{fffd}\u{fffd} Tarō');
    expect(back.text).toContain('typeface lacks');
  });
});

import { beforeAll, describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { lotNo } from '#lib/lot/number.ts';
import type { SettlementSheet, SheetLot } from '#lib/settlement/model.ts';
import { settlementSheet } from '#lib/settlement/sheet.ts';
import { checked, fonts, lowestOf, oneSpaced, pageSizes, type ReadBack, readBack } from '#tests/papers/support/pdf.ts';
import { person, STAMP, sellerFile, sheetsOfCase } from '#tests/papers/support/sheets.ts';
import { boughtBack, charge, goods, lot, seller, sold, unpaid, unsold } from '#tests/support/facts.ts';

/** The figures of a lot's row, in the order in which they stand on it. */
function rowOf({ lotNo: no, quantity, price, amount, commission, fees, net }: SheetLot): string[] {
  const cells = [quantity.figure, quantity.unit, price.figure, price.unit, amount.words, commission.words, fees.words];
  return [no, ...cells, net.words].filter((cell) => cell !== '');
}

/** The line on the paper that begins with this lot's number and goods. */
function lineOf(pages: readonly string[], { lotNo: no, goods: kind }: SheetLot): string {
  const lines = pages.flatMap((page) => page.split('\n')).map((line) => oneSpaced(line).trim());
  return lines.find((line) => line.startsWith(`${no} ${kind} `)) ?? '';
}

function everyText(sheet: SettlementSheet): string[] {
  const { association, sale, partners, steps, shares, remarks, tags, terms, charges } = sheet;
  return [
    ...[sheet.title, sheet.numberWords, sheet.issuedWords, sheet.head.words, sheet.caution, sheet.membershipWords],
    ...[association.name, ...association.address, sale.name, sale.heldOnWords, sale.venue],
    ...partners.flatMap(({ name, member, licence }) => [name, member, licence]),
    ...steps.map(({ label, words }) => `${label} ${words}`),
    ...shares.map(({ name, partsWords, share }) => `${name} ${partsWords} ${share.words}`),
    ...[...sheet.counted, ...sheet.beside].flatMap(({ title, lots }) => [
      title,
      ...lots.flatMap((row) => [row.goods, row.detail, row.note, row.feesHow, row.commissionHow]),
    ]),
    ...[...remarks, ...terms, ...sheet.paidInCash, ...tags.flatMap((own) => own.tags.map(({ words }) => words))],
    ...charges.map(({ amount }) => amount.words),
    ...[sheet.result.label, `${sheet.result.words} ${sale.currency}`, sheet.result.sentence],
  ].filter((words) => words !== '');
}

/** The words one after the other, as a column that is wrapped beside another may tear a sentence apart. */
function missingFrom(text: string, wanted: readonly string[]): string[] {
  return wanted.filter(
    (words) =>
      !oneSpaced(words)
        .split(' ')
        .every((word) => text.includes(word)),
  );
}

describe.each(['by-hand', 'sixty-lots'])('the sheets of %s', (folder) => {
  const sheets = sheetsOfCase(folder);
  const drawn = new Map<number, ReadBack>();
  beforeAll(async () => {
    for (const sheet of sheets) drawn.set(sheet.sellerNo, readBack(await renderSheets([sheet], { size: 'letter' })));
  });

  it.each(sheets)('seller $sellerNo: every lot stands in one line with all its figures', (sheet) => {
    const { pages } = drawn.get(sheet.sellerNo) ?? { pages: [] };
    for (const row of [...sheet.counted, ...sheet.beside].flatMap(({ lots }) => lots)) {
      const [no = '', ...figures] = rowOf(row);
      expect(lineOf(pages, row)).toBe([no, row.goods, ...figures].join(' '));
    }
  });

  it.each(sheets)('seller $sellerNo: every other word and figure of the model is on the paper', (sheet) => {
    const text = drawn.get(sheet.sellerNo)?.text ?? '';
    expect(missingFrom(text, everyText(sheet))).toEqual([]);
    const { countedSum } = sheet;
    if (countedSum) {
      const { label, amount, commission, fees, net } = countedSum;
      expect(text).toContain(`${label} ${[amount, commission, fees, net].map(({ words }) => words).join(' ')}`);
    }
  });

  it('are files without a fault, each page saying which of how many it is', () => {
    for (const back of drawn.values()) {
      expect(checked(back)).toContain('No syntax or stream encoding errors found');
      const said = back.pages.map((page) => /Page (\d+) of (\d+)/.exec(page)?.slice(1).map(Number));
      expect(said).toEqual(back.pages.map((_, at) => [at + 1, back.pages.length]));
    }
  });
});

/** Seventy-five lots, more than three pages of them, with tags, notes and every outcome. */
function longSheet(): SettlementSheet {
  const numbers = Array.from({ length: 75 }, (_, at) => `${at + 1}`);
  const seldom = new Map([
    [21, boughtBack('22', '7.25')],
    [35, unpaid('36', '7.25', 'association')],
  ]);
  const fate = (no: string, at: number) => [seldom.get(at) ?? usual(no, at)].flat();
  const usual = (no: string, at: number) =>
    at % 7 > 0 ? [sold(no, `${at}.25`)] : at % 2 > 0 ? [unsold(no)] : at % 4 > 0 ? [unsold(no, 'withdrawn')] : [];
  const tag = (no: string, at: number) => ({ lotNo: lotNo(no), tag: `US-CITES WY BOB 2025 ${100_000 + at}` });
  return settlementSheet(
    sellerFile({
      goods: [goods('raccoon', { name: 'Raccoon' }), goods('bobcat', { name: 'Bobcat', exportTag: true })],
      lots: numbers.map((no, at) => lot(no, { goods: at % 5 ? 'raccoon' : 'bobcat', note: at % 9 ? '' : 'rubbed' })),
      outcomes: numbers.flatMap(fate),
      tags: numbers.filter((_, at) => at % 5 === 0).map((no, at) => ({ ...tag(no, at), condition: 'intact' as const })),
      charges: [charge()],
    }),
    STAMP,
  );
}

describe('a sheet of many pages', () => {
  let back: ReadBack;
  const sheet = longSheet();
  beforeAll(async () => {
    back = readBack(await renderSheets([sheet], { size: 'letter' }));
  });

  it('repeats the heading of the table on every page that has lots, and the seller number on every page', () => {
    const withLots = back.pages.filter((page) => /^\d+ +(Raccoon|Bobcat)/m.test(page));
    expect(withLots.length).toBeGreaterThan(2);
    for (const page of withLots) expect(page).toMatch(/Lot +Goods +Quantity +Price +Amount +Commission +Fees +Net/);
    for (const page of back.pages.slice(1)) expect(page).toMatch(/Seller 1$/m);
  });

  it('tears no lot and no block apart', () => {
    for (const row of [...sheet.counted, ...sheet.beside].flatMap(({ lots }) => lots)) {
      const [no = '', ...figures] = rowOf(row);
      expect(lineOf(back.pages, row)).toBe([no, row.goods, ...figures].join(' '));
      const page = back.pages.find((text) => new RegExp(`^${no} +${row.goods}`, 'm').test(text)) ?? '';
      if (row.note !== '') expect(page).toContain(row.note);
    }
    const onOnePage = (texts: readonly string[]) =>
      back.pages.filter((page) => texts.every((text) => oneSpaced(page).includes(text))).length;
    expect(onOnePage(['Bought back: your own bid was the last', '22 Raccoon'])).toBe(1);
    expect(onOnePage(['Not paid for: the buyer never paid', 'kept by the association'])).toBe(1);
    expect(onOnePage(['Gross proceeds', 'Payable to', sheet.result.words])).toBe(1);
    expect(onOnePage(['Terms of this sale', sheet.caution])).toBe(1);
  });
});

// The sizes: US Letter is 8.5 by 11 inches; A4 is 210 by 297 mm (ISO 216), 595.28 by 841.89 points.
it.each([
  ['letter', '612 x 792'],
  ['a4', '595.28 x 841.89'],
] as const)('the paper %s is %s points', async (size, points) => {
  const back = readBack(await renderSheets([longSheet()], { size }));
  expect(new Set(pageSizes(back))).toEqual(new Set([points]));
  expect(pageSizes(back)).toHaveLength(back.pages.length);
});

describe('names of every script the typeface carries', () => {
  // Żak before Zoë on purpose: the Z is a part of the Ż, and was once lost after it.
  const names = [
    ...['Łucja Żak', 'Zoë Żółć', 'Íñigo Næss', 'Søren Ærøskøbing', 'Nguyễn Thị Ánh', 'Ğülşen Iğdır', 'Þór Ðað'],
    ...['Ελένη Παπαδοπούλου', 'Дмитрий Ёлкин', 'Եղիշե Չարենց', 'ნინო', 'ᐃᓄᒃ ᓄᓇᕗᑦ'],
  ];

  it('come back letter for letter, on the heading and in the shares, in plain and in bold', async () => {
    const partners = names.map((_, at) => ({ personId: `P${at}`, memberUntil: '2026-12-31', parts: 1 }));
    // One half is handed over with its marks apart (NFD), as some systems type them.
    const people = names.map((name, at) => person(`P${at}`, { name: at % 2 ? name.normalize('NFD') : name }));
    const sheet = settlementSheet(sellerFile({ seller: seller(1, { partners }), people }), STAMP);
    const back = readBack(await renderSheets([sheet], { size: 'a4' }));
    const heading = oneSpaced(back.text.slice(0, back.text.indexOf(sheet.sharesTitle)));
    const shares = oneSpaced(back.text.slice(back.text.indexOf(sheet.sharesTitle)));
    expect(names.filter((name) => !heading.includes(name))).toEqual([]);
    expect(names.filter((name) => !shares.includes(name))).toEqual([]);
  });

  it('from right to left too, in their own order', async () => {
    const people = [person('P1', { name: 'שרה כהן' })];
    const back = readBack(await renderSheets([settlementSheet(sellerFile({ people }), STAMP)], { size: 'a4' }));
    const bare = back.text.replace(/\p{Bidi_Control}/gu, '');
    expect(bare).toContain('שרה כהן');
  });

  it('are set in embedded fonts that carry their Unicode', async () => {
    const back = readBack(await renderSheets(sheetsOfCase('by-hand'), { size: 'a4' }));
    expect(fonts(back).length).toBeGreaterThan(0);
    for (const font of fonts(back)) expect(font).toMatchObject({ embedded: true, unicode: true });
    for (const { name } of fonts(back)) expect(name).toContain('DejaVuSansCondensed');
  });

  it('a letter that the typeface lacks is seen to be missing, and never another letter', async () => {
    const people = [person('P1', { name: '山田 Tarō' })];
    const back = readBack(await renderSheets([settlementSheet(sellerFile({ people }), STAMP)], { size: 'a4' }));
    expect(back.text).toContain('\u{fffd}\u{fffd} Tarō');
    expect(back.text).toContain('typeface lacks');
  });
});

describe('what is unusual', () => {
  it('a preview says so on every page, and has no number', async () => {
    const file = sellerFile({ lots: [lot('1')], outcomes: [sold('1', '7.25')] });
    const sheet = settlementSheet(file, { ...STAMP, number: null });
    const back = readBack(await renderSheets([sheet], { size: 'letter' }));
    for (const page of back.pages) expect(page.match(/PREVIEW/g)?.length).toBeGreaterThan(1);
    expect(back.text).not.toMatch(/Sheet \d/);
    expect(back.text).toContain('not issued');
  });

  it('a negative net is a bill, and says who owes what', async () => {
    const sheet = settlementSheet(sellerFile({ charges: [charge()] }), STAMP);
    const back = readBack(await renderSheets([sheet], { size: 'letter' }));
    expect(back.text).toContain('Owed to the association 25.00 USD');
    expect(back.text).toContain('Net -25.00');
    expect(missingFrom(back.text, [sheet.result.sentence])).toEqual([]);
  });

  it('the largest amounts that can be typed stay apart from their neighbours', async () => {
    const lots = [lot('1', { by: 'lot' }), lot('2', { count: 99_999 })];
    const outcomes = [sold('1', '9999999.99'), sold('2', '9999999.99')];
    const sheet = settlementSheet(sellerFile({ lots, outcomes }), STAMP);
    const { text } = readBack(await renderSheets([sheet], { size: 'a4' }));
    const figures = sheet.counted.flatMap(({ lots: rows }) => rows.flatMap((row) => [row.price.figure, row.net.words]));
    expect(figures).toContain('9,999,999.99');
    expect(figures.filter((figure) => !text.split(' ').includes(figure))).toEqual([]);
  });

  it.each(['letter', 'a4'] as const)(
    'amounts beyond a hundred million on %s stay as legible as the fine print',
    async (size) => {
      const lots = [lot('1', { by: 'lot' }), lot('2', { count: 99_999 })];
      const sheet = settlementSheet(
        sellerFile({ lots, outcomes: [sold('1', '7.25'), sold('2', '9999999.99')] }),
        STAMP,
      );
      const back = readBack(await renderSheets([sheet], { size }));
      expect(back.text).toContain('999,989,999,000.01');
      // The height of a word is 1.16 of its type, so this is type of 7 points, as the terms are set in.
      expect(lowestOf(back, /^\d{1,3}(,\d{3}){3}\.\d\d$/)).toBeGreaterThan(8);
    },
  );
});

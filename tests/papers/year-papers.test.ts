/** The papers of a year read back from the page. */
import { describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { type YearPaper, yearPaper } from '#db/report/year.ts';
import { missingFrom, textsOf } from '#tests/papers/support/list-texts.ts';
import { checked, fonts, oneSpaced, readBack } from '#tests/papers/support/pdf.ts';
import { yearHall } from '#tests/papers/support/year.ts';

const { book } = yearHall();
const drawn = async (paper: YearPaper, of: string) => {
  const list = yearPaper(book, { paper, of }, '2027-03-02');
  return { list, back: readBack(await renderSheets([list], { size: 'letter' })) };
};

/** A line of each paper with its figures, as it stands on the page. */
const LINES: readonly (readonly [YearPaper, readonly string[]])[] = [
  [
    'year-by-person',
    ['Ada Birch 300.00 18.00 10.75 2.50 268.75 268.75', 'In all 400.10 28.01 16.00 2.50 353.59 297.03'],
  ],
  ['sales-tax', ['210.11 105.00 13.66 328.77', 'In all 315.11 105.00 20.49 440.60', 'Ilse Roth EX-77 105.00']],
  ['large-cash', ['December 31, 2026', '2,000.01', 'In all 10,000.01', 'Form 8300 of the IRS']],
];

describe('the papers of a year', () => {
  it.each(LINES)('%s: every word of the model stands on it, and qpdf finds no fault', async (paper, lines) => {
    const { list, back } = await drawn(paper, '2026');
    expect(missingFrom(back.text, textsOf(list))).toEqual([]);
    for (const line of lines) expect(oneSpaced(back.text)).toContain(line);
    expect(back.text).toContain('The year 2026');
    expect(checked(back)).toContain('No syntax or stream encoding errors found');
    expect(fonts(back).every(({ embedded, unicode }) => embedded && unicode)).toBe(true);
  });

  it.each(LINES)('%s: an empty year says so', async (paper) => {
    const { list, back } = await drawn(paper, '2024');
    expect(missingFrom(back.text, textsOf(list))).toEqual([]);
    expect(back.text).toContain(list.tables[0]?.none);
  });

  it('leave the tax numbers of payees to the accountant', async () => {
    const { back } = await drawn('year-by-person', '2026');
    expect(back.text).toContain(
      'Whether and how sellers’ proceeds are reported to the tax authorities is the accountant’s to say.',
    );
  });
});

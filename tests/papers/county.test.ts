/**
 * What an agency may ask for carries no county that nobody said: the sections of the demo's association (Mountain,
 * Foothills, Prairie) are no counties, and stand on none of its official papers.
 */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Paper } from '#app/papers/kinds.ts';
import { renderSheets } from '#app/papers/render.ts';
import { saleById } from '#db/book/find.ts';
import { logHead } from '#db/book/log.ts';
import { buyerFile } from '#db/buyer/files.ts';
import { paperGround, paperLots } from '#db/lot/papers.ts';
import { payoutFile, payoutPapers } from '#db/settlement/papers.ts';
import { sellerFiles } from '#db/settlement/sheets.ts';
import { purchaseList } from '#lib/buyer/lists.ts';
import { PURCHASE_COLUMNS, purchaseCells, purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { officerList } from '#lib/paper/sale-papers.ts';
import { agencyReturn, agencyReturnRows, RETURN_COLUMNS } from '#lib/report/agency-return.ts';
import { SECTIONS } from '#seed/association.ts';
import { GROUND } from '#tests/papers/support/lots.ts';
import { readBack } from '#tests/papers/support/pdf.ts';
import { demoBook } from '#tests/seed/demo-book.ts';
import { lot, saleFacts, sold } from '#tests/support/facts.ts';

const ON = '2024-02-24';
const NOT_RECORDED = 'County: not recorded. Write it in if your agency asks.';
const { book, sales } = demoBook();
const [first] = sales;
const sale = saleById(book, first?.id ?? 0);
if (!first || !sale) throw new Error('the demo has no sale');

const printed = async (papers: readonly Paper[]) => readBack(await renderSheets(papers, { size: 'letter' })).text;
const paperOf = (paper: string) => payoutPapers(book, sale, { paper, drawnOn: ON, check: null }) ?? [];
const anySection = new RegExp(SECTIONS.join('|'));
const buyer = first.facts.outcomes.find(({ buyerNo }) => buyerNo !== null)?.buyerNo ?? 0;

function recordOfBuyer() {
  const file = buyerFile(book, first?.id ?? 0, buyer);
  if (!file) throw new Error('the demo has no such buyer');
  return purchaseRecord(file, ON);
}

describe('no official paper of the demo carries a section', () => {
  it('though its lots have them', () => {
    expect(new Set(first.facts.lots.map(({ section }) => section))).toEqual(new Set(SECTIONS));
  });

  it('the return to the agency has a place for the county, and says that it is not recorded', async () => {
    const text = await printed(paperOf('agency-return'));
    expect(text).not.toMatch(anySection);
    expect(text).toContain('State, county');
    expect(text).toContain('US-MT');
    expect(text).toContain(NOT_RECORDED);
  });

  it('the purchase record of a buyer', async () => {
    const text = await printed([purchaseList(recordOfBuyer(), logHead(book))]);
    expect(text).not.toMatch(anySection);
    expect(text).toContain('Taken in US-MT');
    expect(text).toContain(NOT_RECORDED);
  });

  it('the officer’s list and the furs held over', async () => {
    const ground = paperGround(book, sale, ON);
    const officer = await printed([officerList(ground, paperLots(book, sale), sellerFiles(book, sale.id))]);
    expect(officer).toContain('Bobcat');
    expect(officer).not.toMatch(anySection);
    expect(await printed(paperOf('held-over'))).not.toMatch(anySection);
  });

  it('and no file: the county is a column without a word in it', () => {
    const returned = parse(payoutFile(book, sale, { file: 'agency_return.csv', drawnOn: ON }) ?? '', { columns: true });
    expect(new Set((returned as Record<string, string>[]).map(({ county }) => county))).toEqual(new Set(['']));
    for (const file of ['agency_return.csv', 'tag_register.csv', 'held_over.csv']) {
      expect(payoutFile(book, sale, { file, drawnOn: ON }), file).not.toMatch(anySection);
    }
    const cells = purchaseCells(recordOfBuyer());
    expect(cells.flat().join('\n')).not.toMatch(anySection);
    expect(new Set(cells.map((row) => row[PURCHASE_COLUMNS.indexOf('county')]))).toEqual(new Set(['']));
  });
});

describe('the return to the agency', () => {
  it('never carries a word of a section, whatever it is', () => {
    const section = fc.string({ minLength: 1, unit: 'grapheme' }).map((text) => `§${text}§`);
    fc.assert(
      fc.property(fc.array(section, { minLength: 1, maxLength: 6 }), (sections) => {
        const lots = sections.map((one, at) => lot(String(at + 1), { section: one }));
        const facts = saleFacts({ lots, outcomes: lots.map(({ lotNo }) => sold(lotNo, '5.00')) });
        const after = { context: GROUND, facts, people: [], tags: [], takenIn: new Map(), statementDays: 10 };
        expect(JSON.stringify(agencyReturn(after))).not.toContain('§');
        const rows = agencyReturnRows(after);
        expect(rows).toHaveLength(lots.length);
        expect(rows.flat().join('')).not.toContain('§');
        expect(rows.map((row) => row[RETURN_COLUMNS.indexOf('county')]).join('')).toBe('');
      }),
    );
  });
});

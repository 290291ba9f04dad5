/** A paper that goes on on another page leaves no third of a page empty before it: of one to forty lots. */
import { describe, expect, it } from 'vitest';
import type { Paper } from '#app/papers/kinds.ts';
import { renderSheets } from '#app/papers/render.ts';
import { SIZES } from '#app/papers/styles.ts';
import type { BuyerFile } from '#lib/buyer/buyer.ts';
import { invoiceList, purchaseList } from '#lib/buyer/lists.ts';
import { purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { invoicePaper } from '#lib/invoice/paper.ts';
import { lotNo } from '#lib/lot/number.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import { settlementSheet } from '#lib/settlement/sheet.ts';
import { filledTo, oneSpaced, readBack } from '#tests/papers/support/pdf.ts';
import { ASSOCIATION, HEAD, person, STAMP, sellerFile } from '#tests/papers/support/sheets.ts';
import { buyer, charge, goods, lot, money, sale, seller, sold } from '#tests/support/facts.ts';

const LOTS = Array.from({ length: 40 }, (_, at) => at + 1);
const EVERY_THIRD = LOTS.filter((count) => count % 3 === 1);
const TWO_THIRDS = 2 / 3;
const KINDS = [
  goods('raccoon', { name: 'Raccoon', scientificName: 'Procyon lotor' }),
  goods('bobcat', { name: 'Bobcat', scientificName: 'Lynx rufus', exportTag: true }),
];

/** So many lots, each fifth of them bobcats with three tags. */
function soldLots(count: number) {
  const numbers = Array.from({ length: count }, (_, at) => String(at + 1));
  const bobcats = numbers.filter((_, at) => at % 5 === 0);
  return {
    lots: numbers.map((no) =>
      lot(no, { goods: bobcats.includes(no) ? 'bobcat' : 'raccoon', count: 3, size: 'XL', grade: 'I' }),
    ),
    outcomes: numbers.map((no) => sold(no, '7.25', 10)),
    tags: bobcats.flatMap((no, at) =>
      [0, 1, 2].map((piece) => ({
        ...{ lotNo: lotNo(no), condition: 'intact' as const },
        tag: `US-CITES WY BOB 2025 ${100_000 + 3 * at + piece}`,
      })),
    ),
  };
}

const PARTNERS = ['P1', 'P2', 'P3', 'P4'];
const PEOPLE = PARTNERS.map((id) => person(id));

function sheetOf(count: number, partners: number, charges: number): SettlementSheet {
  const own = PARTNERS.slice(0, partners).map((personId) => ({ personId, memberUntil: '2026-12-31', parts: 1 }));
  return settlementSheet(
    sellerFile({
      ...{ people: PEOPLE, seller: seller(1, { partners: own }), goods: KINDS, ...soldLots(count) },
      charges: Array.from({ length: charges }, (_, at) => charge({ amountCents: money(`${at + 1}.00`) })),
    }),
    STAMP,
  );
}

function bought(count: number): BuyerFile {
  const { lots, ...rest } = soldLots(count);
  const partners = ['P1', 'P2'].map((personId) => ({ personId, memberUntil: null, parts: 1 }));
  return {
    ...{ association: ASSOCIATION, sale: sale(), goods: KINDS, people: [...PEOPLE, person('B10')], payments: [] },
    ...{ sellers: [seller(1, { partners })], buyer: { ...buyer(10), licenceRegion: '', licenceExpires: null } },
    ...{ lots: lots.map((one) => ({ ...one, takenIn: '' })), ...rest },
  };
}

/** How far down the pages are filled that their paper goes on behind: those in their upper two thirds only. */
async function emptyOf(papers: readonly Paper[]): Promise<string[]> {
  const back = readBack(await renderSheets(papers, { size: 'letter' }));
  const filled = filledTo(back, SIZES.letter.height);
  const numbered = back.pages.map((page) => /Page (\d+) of (\d+)/.exec(page)?.slice(1).map(Number) ?? []);
  expect(numbered.filter(([at]) => at === 1)).toHaveLength(papers.length);
  expect(numbered.some(([, of = 0]) => of > 1)).toBe(true);
  return numbered.flatMap(([at, of], page) => {
    const part = filled[page] ?? 0;
    return at !== of && part < TWO_THIRDS ? [`page ${at} of ${of} ends at ${part.toFixed(2)}`] : [];
  });
}

describe('no page is left a third empty by', () => {
  it('a settlement sheet of one seller', async () => {
    expect(await emptyOf(LOTS.map((count) => sheetOf(count, 1, 1)))).toEqual([]);
  });

  it('a settlement sheet of four partners with many charges', async () => {
    expect(await emptyOf(EVERY_THIRD.map((count) => sheetOf(count, 4, 12)))).toEqual([]);
  });

  it('an invoice', async () => {
    expect(await emptyOf(LOTS.map((count) => invoiceList(invoicePaper(bought(count), STAMP))))).toEqual([]);
  });

  it('a purchase record', async () => {
    const records = LOTS.map((count) => purchaseList(purchaseRecord(bought(count), '2026-02-28'), HEAD));
    expect(await emptyOf(records)).toEqual([]);
  });
});

describe('a lot takes few lines', () => {
  const linesOf = async (paper: Paper) => {
    const { pages } = readBack(await renderSheets([paper], { size: 'letter' }));
    const lines = pages.flatMap((page) => page.split('\n')).map((line) => oneSpaced(line).trim());
    const from = lines.findIndex((line) => line.startsWith('1 ') && line.includes('Bobcat'));
    const to = lines.findIndex((line) => /^(6 |Total without|Reckoning)/.test(line));
    return lines.slice(from, to).filter((line) => line !== '');
  };

  it('of an invoice one, and one more for its tags in the full width', async () => {
    const lines = await linesOf(invoiceList(invoicePaper(bought(5), STAMP)));
    expect(lines).toHaveLength(6);
    expect(lines[1]).toBe('Export tags: US-CITES WY BOB 2025 100000 to 100002');
  });

  it('of a purchase record three at the most, with two partners and tags', async () => {
    const lines = await linesOf(purchaseList(purchaseRecord(bought(5), '2026-02-28'), HEAD));
    expect(lines[0]).toBe('1 February 28, 2026 Bobcat, Lynx rufus 3 pieces 7.25 each 21.75');
    expect(lines.slice(1, 4).join(' ')).toContain('Taken in US-WY · from Person P1, 1 Mill Road, Harrow, WY 82000,');
    expect(lines.slice(1, 4).join(' ')).toContain('Export tags: US-CITES WY BOB 2025 100000 to 100002');
    // Two partners' addresses and licences take two lines, and the tags one.
    expect(lines.length).toBeLessThanOrEqual(4 + 4 * 3);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatMoney, sumCents } from '#lib/money/money.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import type { SettlementSheet, SheetLot } from '#lib/settlement/model.ts';
import type { SellerFile } from '#lib/settlement/parties.ts';
import { settlementSheet } from '#lib/settlement/sheet.ts';
import { filesOf, HEAD, person, STAMP, sellerFile, sheetsOfCase } from '#tests/papers/support/sheets.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { readTable } from '#tests/support/case-folder.ts';
import {
  boughtBack,
  buyer,
  charge,
  goods,
  lot,
  money,
  sale,
  seller,
  sold,
  terms,
  unpaid,
  unsold,
} from '#tests/support/facts.ts';

const lotsOf = (sheet: SettlementSheet): SheetLot[] => [...sheet.counted, ...sheet.beside].flatMap(({ lots }) => lots);
const sheetOf = (over: Partial<SellerFile>) => settlementSheet(sellerFile(over), STAMP);

/** A sale with somebody behind every partner. */
const anyFiles = anySale.map((facts: SaleFacts) => {
  const ids = facts.sellers.flatMap(({ partners }) => partners.map(({ personId }) => personId));
  return filesOf(facts, { people: ids.map((id) => person(id)), tags: [] });
});

function everySheet(check: (sheet: SettlementSheet, file: SellerFile) => void): void {
  fc.assert(
    fc.property(anyFiles, (files) => {
      for (const file of files) check(settlementSheet(file, STAMP), file);
    }),
  );
}

describe('laws of every sheet', () => {
  it('has each lot of the seller number once', () => {
    everySheet((sheet, { lots }) => {
      const shown = lotsOf(sheet).map(({ lotNo }) => lotNo);
      expect([...shown].sort()).toEqual(lots.map(({ lotNo }) => lotNo).sort());
    });
  });

  it('adds up: nets of the lots, less the seller number fee and the charges, make the net', () => {
    everySheet((sheet, { sale: { terms: own } }) => {
      const { totals, charges } = sheet;
      const nets = sumCents(lotsOf(sheet).map(({ net }) => net.cents));
      expect(nets).toBe(totals.lotNetsCents);
      expect(sheet.countedSum?.net.cents ?? 0).toBe(nets);
      const deducted = sumCents(charges.filter(({ how }) => how === 'deducted').map(({ amount }) => amount.cents));
      expect(totals.netCents).toBe(nets - own.sellerNumberFeeCents - deducted);
    });
  });

  it('adds up: every step but the last makes the last', () => {
    everySheet(({ steps, totals }) => {
      expect(sumCents(steps.slice(0, -1).map(({ effectCents }) => effectCents))).toBe(totals.netCents);
      expect(steps.at(-1)).toMatchObject({ kind: 'sum', effectCents: totals.netCents });
    });
  });

  it('adds up: each column of the lots that count makes its sum, and the shares make the net', () => {
    everySheet((sheet) => {
      const counted = sheet.counted.flatMap(({ lots }) => lots);
      for (const column of ['amount', 'commission', 'fees', 'net'] as const) {
        expect(sumCents(counted.map((row) => row[column].cents))).toBe(sheet.countedSum?.[column].cents ?? 0);
      }
      expect(sumCents(sheet.shares.map(({ share }) => share.cents))).toBe(sheet.totals.netCents);
    });
  });

  it('is plain JSON, and a preview differs from it in the stamp alone', () => {
    everySheet((sheet, file) => {
      expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet);
      const preview = settlementSheet(file, { ...STAMP, number: null });
      const { number, numberWords, preview: isPreview, issuedWords } = preview;
      expect({ number, numberWords, isPreview }).toEqual({ number: null, numberWords: 'PREVIEW', isPreview: true });
      const { number: n, numberWords: w, preview: p, issuedWords: i } = sheet;
      expect({ ...preview, number: n, numberWords: w, preview: p, issuedWords: i }).toEqual(sheet);
      expect(issuedWords).not.toMatch(/^Issued/);
    });
  });
});

// The tables were worked out apart from this program: see tests/cases/README.md.
describe.each(['by-hand', 'sixty-lots'])('%s, against its expected tables', (folder) => {
  const sheets = sheetsOfCase(folder);
  const rowsOf = (file: string) => readTable(folder, file).slice(1);

  it('totals', () => {
    const rows = sheets.map(({ sellerNo, totals }) => {
      const { grossCents, commissionCents, lotFeesCents, noSaleFeesCents, sellerNumberFeeCents } = totals;
      const fees = [lotFeesCents, noSaleFeesCents, sellerNumberFeeCents, totals.chargesCents, totals.netCents];
      const sums = [grossCents, commissionCents, ...fees].map(formatMoney);
      return [String(sellerNo), String(totals.lotsSold), String(totals.lotsPassed), ...sums];
    });
    expect(rows).toEqual(rowsOf('settlements.csv'));
  });

  it('shares', () => {
    const rows = sheets.flatMap(({ sellerNo, shares }) =>
      shares.map(({ personId, parts, share }) => [String(sellerNo), personId, String(parts), formatMoney(share.cents)]),
    );
    expect(rows).toEqual(rowsOf('settlement_shares.csv'));
  });

  it('lines, where a lot was called', () => {
    const rows = sheets.flatMap((sheet) =>
      lotsOf(sheet)
        .filter(({ outcome }) => outcome !== 'waiting')
        .map(({ lotNo, outcome, donated, ...own }) => [
          ...[String(sheet.sellerNo), lotNo, outcome, donated ? 'yes' : 'no'],
          ...[own.amount, own.commission, own.fees, own.net].map(({ cents }) => formatMoney(cents)),
        ]),
    );
    const byPlace = (a: string[], b: string[]) => a.join().localeCompare(b.join(), 'en', { numeric: true });
    expect(rows.sort(byPlace)).toEqual(rowsOf('settlement_lines.csv').sort(byPlace));
  });
});

describe('the words of the sale worked by hand', () => {
  const [first, second] = sheetsOfCase('by-hand');

  it('say each lot’s price and what it stands for, and how its commission came about', () => {
    const words = [first, second].flatMap((sheet) =>
      sheet ? lotsOf(sheet).map((row) => [row.lotNo, row.quantity.words, row.price.words, row.commissionHow]) : [],
    );
    expect(words).toEqual([
      ['1', '3 pieces', '112.75 each', '3.75 %'],
      ['2', '12 pieces', '7.75 each', '6 %'],
      ['3', '1 piece', '0.35 each', 'at least 0.10'],
      ['4', '7.35 oz', '3.50 / oz', '6 %'],
      ['5', '40 pieces', '101.30 the lot', '10 %'],
      ['6', '2 pieces', 'minimum 12.50 each', ''],
      ['7', '1 piece', '10.00 each', ''],
    ]);
  });

  it('say who sells, as what, and who gets how much', () => {
    expect(first?.partners.map(({ name, address, licence }) => [name, ...address, licence])).toEqual([
      ['Wren Tamarack', '1 Mill Road', 'Harrow, WY 82000', 'Licence L1, US-WY, to December 31, 2026'],
      ['Łucja Żak', '2 Mill Road', 'Harrow, WY 82000', 'Licence L2, US-WY, to December 31, 2026'],
    ]);
    expect(first?.membership).toBe('member');
    expect(second?.membershipWords).toBe('Guest');
    expect(first?.shares.map(({ partsWords, share }) => [partsWords, share.words])).toEqual([
      ['2 of 3 parts', '270.95'],
      ['1 of 3 parts', '135.48'],
    ]);
    expect(first?.result).toMatchObject({ kind: 'pays', words: '406.43' });
  });

  it('keep what was given and what was paid in cash out of the sum, and say so', () => {
    expect(second?.counted.map(({ kind, lots }) => [kind, lots.length])).toEqual([
      ['sold', 1],
      ['passed', 1],
    ]);
    expect(second?.beside.map(({ kind }) => kind)).toEqual(['donated']);
    expect(second?.beside[0]?.lots[0]).toMatchObject({ note: 'for the youth camp', amount: { words: '10.00' } });
    expect(second?.paidInCash).toEqual(['Dues: 25.00']);
    expect(second?.counted[1]?.lots[0]?.feesHow).toBe('lot fee 0.25, no-sale fee 1.50');
  });

  it('carry the tags, the terms, the number, the day and the head of the log', () => {
    expect(first?.tags).toMatchObject([{ lotNo: '1', goods: 'Bobcat' }]);
    expect(first?.tags[0]?.tags.map(({ words }) => words)).toEqual(
      ['101', '102', '103'].map((serial) => `US-CITES WY BOB 2025 000${serial}`),
    );
    expect(first?.terms.join(' ')).toContain('3.75 %');
    expect(first).toMatchObject({ numberWords: 'Sheet 1', issuedWords: 'Issued February 28, 2026', preview: false });
    expect(first?.head.words.replaceAll(' ', '')).toContain(HEAD.hash);
  });
});

describe('what is unusual', () => {
  it('a negative net is a bill, in words and without a minus sign', () => {
    const fee = terms({ sellerNumberFeeCents: money('5.00'), noSaleFlatCents: money('1.56') });
    const sheet = sheetOf({ sale: sale({ terms: fee }), lots: [lot('1')], outcomes: [unsold('1')] });
    expect(sheet.totals.netCents).toBe(-656);
    expect(sheet.result).toMatchObject({ kind: 'owes', label: 'Owed to the association', words: '6.56' });
    expect(sheet.result.sentence).toContain('6.56 USD');
    expect(sheet.shares).toMatchObject([{ share: { cents: -656, words: '6.56' } }]);
  });

  it('nothing either way is neither', () => {
    expect(sheetOf({}).result).toMatchObject({ kind: 'even', words: '0.00' });
  });

  it('a charge in the seller’s favour is put on', () => {
    const note = 'a tag of ours';
    const sheet = sheetOf({ charges: [charge({ kind: 'adjustment', amountCents: money('-2.00'), note })] });
    expect(sheet.steps[1]).toEqual({
      kind: 'plus',
      label: 'Adjustment: a tag of ours',
      words: '2.00',
      effectCents: 200,
    });
    expect(sheet.totals.netCents).toBe(200);
  });

  it('a lot that a seller of the number bought, and one under its minimum, are remarked on', () => {
    const sheet = sheetOf({
      people: [person('P1', { name: 'Łucja Żak' })],
      buyers: [buyer(10), buyer(12, { personId: 'P1' }), buyer(13, { personId: 'P1' })],
      lots: [lot('2', { minimumCents: money('9.00') }), lot('3'), lot('4')],
      outcomes: [sold('2', '8.50'), sold('3', '7.00', 12), sold('4', '7.00', 12)],
    });
    expect(sheet.remarks).toEqual([
      'Lots 3 and 4 went to Łucja Żak, buyer 12 and a seller of this number.',
      'Lot 2 was sold under its minimum of 9.00 each.',
    ]);
  });

  it('withdrawn lots and lots not called stand beside the sum', () => {
    const sheet = sheetOf({
      lots: [lot('9'), lot('10'), lot('2')],
      outcomes: [unsold('10', 'withdrawn'), sold('2', '1.00')],
    });
    expect(sheet.beside.map(({ kind, lots }) => [kind, ...lots.map(({ lotNo }) => lotNo)])).toEqual([
      ['withdrawn', '10'],
      ['waiting', '9'],
    ]);
    expect(sheet.beside.flatMap(({ lots }) => lots.map(({ net, fees }) => net.words + fees.words))).toEqual(['', '']);
  });

  // Common practice, no source.
  it('lots bought back stand in the sum with commission and fee alone, and those not paid for stand beside it', () => {
    const sheet = sheetOf({
      sale: sale({ terms: terms({ lotFeeCents: money('0.25') }) }),
      lots: [lot('1', { count: 10 }), lot('2', { count: 10 }), lot('3'), lot('4')],
      outcomes: [sold('1', '20.00'), boughtBack('2', '20.00'), unpaid('3', '7.00'), unpaid('4', '8.00', 'association')],
    });
    expect(sheet.counted.map(({ kind, lots }) => [kind, lots.map(({ net }) => net.words)])).toEqual([
      ['sold', ['187.75']],
      ['bought_back', ['-12.25']],
    ]);
    const [, back] = sheet.counted;
    expect(back?.lots[0]).toMatchObject({
      ...{
        price: { words: '20.00 each' },
        amount: { words: '' },
        commission: { words: '12.00' },
        fees: { words: '0.25' },
      },
      commissionHow: '6 %',
    });
    expect(sheet.countedSum).toMatchObject({ amount: { words: '200.00' }, net: { words: '175.50' } });
    const [beside] = sheet.beside;
    expect(beside?.title).toMatch(/^Not paid for/);
    expect(beside?.lots.map(({ detail, price, net }) => [detail, price.words, net.words])).toEqual([
      ['goes back to you', '7.00 each', ''],
      ['kept by the association', '8.00 each', ''],
    ]);
    expect(sheet.totals).toMatchObject({
      grossCents: 20_000,
      commissionCents: 2400,
      lotFeesCents: 50,
      noSaleFeesCents: 0,
    });
  });

  it('a least commission takes at most the whole lot', () => {
    const least = sale({ terms: terms({ commissionMinCents: money('2.00') }) });
    const sheet = sheetOf({ sale: least, lots: [lot('1')], outcomes: [sold('1', '1.25')] });
    expect(sheet.counted[0]?.lots[0]).toMatchObject({ commissionHow: 'all of it', net: { cents: 0 } });
  });

  it('a tag that is no longer whole says so', () => {
    const tag = { lotNo: lot('1').lotNo, tag: 'US-CITES WY BOB 2025 000101', condition: 'broken' } as const;
    const sheet = sheetOf({ lots: [lot('1', { goods: 'bobcat' })], goods: [goods('bobcat')], tags: [tag] });
    expect(sheet.tags[0]?.tags[0]?.words).toContain('to be replaced before export');
  });

  it('partners settle as guests when one has not paid dues, and the sheet says why', () => {
    const partners = [
      { personId: 'P1', memberUntil: '2026-12-31', parts: 1 },
      { personId: 'P2', memberUntil: null, parts: 1 },
    ];
    const sheet = sheetOf({ seller: seller(1, { partners }), people: [person('P1'), person('P2')] });
    expect(sheet.membership).toBe('guest');
    expect(sheet.membershipWords).toMatch(/not every partner/);
  });

  it('facts that do not hang together are a fault', () => {
    expect(() => sheetOf({ people: [] })).toThrow('no particulars of P1');
    expect(() => sheetOf({ outcomes: [sold('1', '1.00')] })).toThrow('lot 1 is not of seller number 1');
  });
});

import { describe, expect, it } from 'vitest';
import type { BuyerFile } from '#lib/buyer/buyer.ts';
import { purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { lotNo } from '#lib/lot/number.ts';
import type { SheetTag } from '#lib/settlement/parties.ts';
import { ASSOCIATION, person } from '#tests/papers/support/sheets.ts';
import { buyer, goods, lot, sale, seller, sold } from '#tests/support/facts.ts';

function file(over: Partial<BuyerFile> = {}): BuyerFile {
  return {
    association: ASSOCIATION,
    sale: sale(),
    goods: [goods('bobcat', { name: 'Bobcat', scientificName: 'Lynx rufus', exportTag: true })],
    people: [person('P1'), person('B10')],
    sellers: [seller(1)],
    buyer: { ...buyer(10), licenceRegion: '', licenceExpires: null },
    lots: [{ ...lot('1', { goods: 'bobcat', count: 2 }), takenIn: 'US-MT' }],
    outcomes: [sold('1', '125.00')],
    tags: [],
    payments: [],
    ...over,
  };
}

const tag = (serial: string, condition: 'intact' | 'broken' | 'replacement') => ({
  lotNo: lotNo('1'),
  tag: serial,
  condition,
});

describe('a purchase record', () => {
  it('names the State of take: the lot’s own where it has one, else the sale’s', () => {
    const [row] = purchaseRecord(file(), '2026-02-28').rows;
    expect(row).toMatchObject({ takenIn: 'US-MT', goods: 'Bobcat', scientificName: 'Lynx rufus', count: 2 });
    const lots = [{ ...lot('1', { goods: 'bobcat', count: 2 }), takenIn: '' }];
    expect(purchaseRecord(file({ lots }), '2026-02-28').rows[0]?.takenIn).toBe('US-WY');
  });

  it('marks a broken tag as not exportable until there is a good tag for each piece', () => {
    const broken = file({ tags: [tag('A', 'intact'), tag('B', 'broken')] });
    const { rows, remarks } = purchaseRecord(broken, '2026-02-28');
    expect(rows[0]?.tags).toEqual([
      { tag: 'A', exportable: true, words: 'A' },
      { tag: 'B', exportable: false, words: 'B (not exportable until replaced)' },
    ]);
    expect(remarks).toHaveLength(2);
    const replaced = file({ tags: [tag('A', 'intact'), tag('B', 'broken'), tag('R', 'replacement')] });
    expect(purchaseRecord(replaced, '2026-02-28').rows[0]?.tags.map(({ words }) => words)).toEqual([
      ...['A', 'B (broken, replaced)', 'R (replacement)'],
    ]);
    expect(purchaseRecord(replaced, '2026-02-28').remarks).toEqual([]);
  });

  it('tells a tag that broke after the hammer from one that was replaced before it', () => {
    const own: SheetTag[] = [
      { ...tag('A', 'broken'), mended: { by: null } },
      tag('B', 'broken'),
      tag('C', 'replacement'),
    ];
    const words = (tags: SheetTag[]) =>
      purchaseRecord(file({ tags }), '2026-02-28').rows[0]?.tags.map((one) => one.words);
    expect(words(own)).toEqual(['A (not exportable until replaced)', 'B (broken, replaced)', 'C (replacement)']);
    const replaced: SheetTag = { ...tag('A', 'broken'), mended: { by: 'D' } };
    expect(words([replaced, tag('D', 'replacement'), tag('B', 'intact')])).toEqual([
      ...['A (broken, replaced by D)', 'D (replacement)', 'B'],
    ]);
  });

  it('says what one piece of a lot sold for one price comes to, half a cent upward', () => {
    // 10.13 and not 10.12: 101.25 for ten is 10.125 each. Rounding half up: General Decimal Arithmetic 2.59.
    const lots = [{ ...lot('1', { goods: 'bobcat', by: 'lot' as const, count: 10 }), takenIn: '' }];
    const [row] = purchaseRecord(file({ lots, outcomes: [sold('1', '101.25')] }), '2026-02-28').rows;
    expect(row).toMatchObject({
      each: { words: '10.13' },
      amount: { words: '101.25' },
      quantity: { words: '10 pieces' },
    });
  });

  it('does not hide that somebody’s particulars are missing', () => {
    expect(() => purchaseRecord(file({ people: [person('B10')] }), '2026-02-28')).toThrow(RangeError);
    expect(() => purchaseRecord(file({ people: [person('P1')] }), '2026-02-28')).toThrow(/buyer number 10/);
    expect(() => purchaseRecord(file({ outcomes: [] }), '2026-02-28')).toThrow(/lot 1 was not sold/);
  });
});

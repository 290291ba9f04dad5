/** The list of the agency officer's table: every lot that takes export tags with its tags, and what is still missing. */
import { lotDetails } from '#lib/lot/details.ts';
import { byNumber, countWords, goodsWords, quantityInWords } from '#lib/lot/words.ts';
import { partnersOf, type SellerFile } from '#lib/settlement/parties.ts';
import { tagRanges } from '#lib/tag/list.ts';
import type { PaperGround, PaperLot } from './facts.ts';
import { BLANK, cell, type ListPaper, type ListTable, listPaper, NO_ADVICE } from './list.ts';

export function officerList(ground: PaperGround, lots: readonly PaperLot[], files: readonly SellerFile[]): ListPaper {
  const tagged = byNumber(lots.filter(({ exportTag }) => exportTag));
  const sellers = new Map(files.map((file) => [file.seller.sellerNo, sellerWords(file)]));
  return listPaper(ground, {
    title: 'Tag list',
    opening: [
      'Tags and licences are the wildlife agency’s to judge: this list says only what was entered at the check-in table.',
    ],
    tables: [holdsTable(tagged), tagsTable(tagged, sellers)],
    signatures: ['Officer', 'Date and time'],
    caution: NO_ADVICE,
  });
}

function holdsTable(tagged: readonly PaperLot[]): ListTable {
  const held = tagged.filter(({ holds }) => holds.length > 0);
  return {
    title: 'Lots on hold: not put up until this is mended',
    columns: [
      { kind: 'lot', words: 'Lot' },
      { kind: 'goods', words: 'Goods' },
      { kind: 'number', words: 'Seller' },
      { kind: 'words', words: 'What is missing or wrong' },
      { kind: 'tick', words: 'Mended' },
    ],
    rows: held.map((lot) => [
      cell(lot.lotNo),
      cell(goodsWords(lot), quantityInWords(lot)),
      cell(String(lot.sellerNo)),
      cell('', ...lot.holds),
      BLANK,
    ]),
    none: 'No lot is on hold.',
    sum: held.length === 0 ? '' : `${countWords(held.length, 'lot')} on hold`,
  };
}

function tagsTable(tagged: readonly PaperLot[], sellers: ReadonlyMap<number, readonly string[]>): ListTable {
  const tags = tagged.reduce((so, lot) => so + lot.tags.length, 0);
  return {
    title: 'Lots that take export tags',
    columns: [
      { kind: 'lot', words: 'Lot' },
      { kind: 'goods', words: 'Goods' },
      { kind: 'number', words: 'Seller' },
      { kind: 'words', words: 'Seller and licence, export tags' },
      { kind: 'tick', words: 'Seen' },
    ],
    rows: tagged.map((lot) => [
      cell(lot.lotNo),
      cell(goodsWords(lot), lotDetails('officer', lot), quantityInWords(lot)),
      cell(String(lot.sellerNo)),
      cell('', ...(sellers.get(lot.sellerNo) ?? []), ...tagsInLines(lot)),
      BLANK,
    ]),
    none: 'No lot takes export tags.',
    sum: tagged.length === 0 ? '' : `${countWords(tagged.length, 'lot')}, ${countWords(tags, 'export tag')}`,
  };
}

function tagsInLines({ tags }: PaperLot): string[] {
  return tags.length === 0 ? ['no tag entered'] : [`${countWords(tags.length, 'tag')}:`, ...tagRanges(tags)];
}

function sellerWords(file: SellerFile): string[] {
  return partnersOf(file).map(({ name, licence }) => `${name}: ${licence === '' ? 'no licence on record' : licence}`);
}

/** The bid sheet of a written sale: the lots with a place for one buyer's price each. */
import { lotDetails } from '#lib/lot/details.ts';
import { quantityInWords } from '#lib/lot-words.ts';
import type { PaperGround, PaperLot } from '#lib/paper/facts.ts';
import { BLANK, cell, type ListPaper, listPaper } from '#lib/paper/list.ts';
import { byNumber, countWords, goodsWords, shortMinimum, standsFor } from '#lib/paper/lot-words.ts';
import { clean } from '#lib/sheet/spell.ts';

export interface BidSheetBuyer {
  readonly buyerNo: number;
  readonly name: string;
}

/** One buyer's sheet, or with null a sheet on which the buyer writes number and name. Only lots that are still open. */
export function bidSheet(ground: PaperGround, lots: readonly PaperLot[], buyer: BidSheetBuyer | null): ListPaper {
  const open = byNumber(lots.filter(({ outcome }) => outcome === null));
  return listPaper(ground, {
    title: 'Bid sheet',
    number: { label: 'Buyer', words: buyer === null ? '' : String(buyer.buyerNo) },
    parties: buyer === null ? [] : [{ title: clean(buyer.name), sentences: [] }],
    opening: [
      'Write the most you pay for a lot, standing for what is printed behind the box; leave the others empty.',
      'The highest bid at or above the minimum takes a lot, a tie goes to the earlier one. Below the minimum the seller may accept or keep the lot.',
    ],
    tables: [
      {
        title: '',
        columns: [
          { kind: 'lot', words: 'Lot' },
          { kind: 'goods', words: 'Goods' },
          { kind: 'quantity', words: 'Quantity' },
          { kind: 'price', words: 'Minimum' },
          { kind: 'blank', words: 'My bid' },
          { kind: 'tick', words: '' },
        ],
        rows: open.map((lot) => [
          cell(lot.lotNo),
          cell(goodsWords(lot), lotDetails('list', lot)),
          cell(quantityInWords(lot)),
          cell(shortMinimum(lot)),
          BLANK,
          cell(standsFor(lot)),
        ]),
        none: 'No lot is open for bids.',
        sum: open.length === 0 ? '' : countWords(open.length, 'lot'),
      },
    ],
    signedAtTop: true,
    signatures: buyer === null ? ['Name and buyer number', 'Signature', 'Handed in at'] : ['Signature', 'Handed in at'],
  });
}

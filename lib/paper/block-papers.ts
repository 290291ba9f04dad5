/** The bid sheet of a written sale: the lots with a place for one buyer's price each. */
import { lotDetails } from '#lib/lot/details.ts';
import { byNumber, countWords, goodsWords, quantityInWords, shortMinimum, standsFor } from '#lib/lot/words.ts';
import { clean } from '#lib/settlement/spelling.ts';
import type { PaperGround, PaperLot } from './facts.ts';
import { BLANK, cell, type ListPaper, listPaper } from './list.ts';

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

/**
 * The Block's sheets for the hour when the power fails: the lots still to be called, with room for what the hammer
 * brought.
 */
export function blockSheet(ground: PaperGround, lots: readonly PaperLot[]): ListPaper {
  const open = lots.filter(({ outcome }) => outcome === null);
  return listPaper(ground, {
    title: 'Block sheet',
    opening: [
      'For taking down by hand when the machine is silent. Write the price for what stands behind its box, the buyer number and the time.',
      'A lot that is not sold: write no-sale or withdrawn in the place of the price. A mistake: strike it out once, write it again beside it, and sign.',
      ...(open.some(({ leftBids }) => leftBids.length > 0) ? [LEFT_BIDS] : []),
      'Enter the sheets at the Block afterwards in the order of the times, and keep them. Initial the foot of each.',
    ],
    tables: [
      {
        title: '',
        columns: [
          { kind: 'lot', words: 'Lot' },
          { kind: 'goods', words: 'Goods' },
          { kind: 'quantity', words: 'Quantity' },
          { kind: 'number', words: 'Seller' },
          { kind: 'price', words: 'Minimum' },
          { kind: 'blank', words: 'Price' },
          { kind: 'tick', words: '' },
          { kind: 'blank', words: 'Buyer' },
          { kind: 'blank', words: 'Time' },
        ],
        rows: open.map((lot) => [
          cell(lot.lotNo),
          cell(
            goodsWords(lot),
            lotDetails('list', lot),
            lot.holds.length > 0 ? 'ON HOLD: do not put up' : '',
            ...leftBidLines(lot),
          ),
          cell(quantityInWords(lot)),
          cell(String(lot.sellerNo)),
          cell(shortMinimum(lot)),
          BLANK,
          cell(standsFor(lot)),
          BLANK,
          BLANK,
        ]),
        none: 'No lot is left to be called.',
        sum: open.length === 0 ? '' : `${countWords(open.length, 'lot')} still to be called`,
      },
    ],
  });
}

const LEFT_BIDS = 'Left bids stand under the goods and are nobody’s to see but the clerk’s: keep the sheet face down.';

function leftBidLines({ leftBids }: PaperLot): string[] {
  return leftBids.map(({ buyerNo, price }) => `left bid of buyer ${buyerNo}: ${price}`);
}

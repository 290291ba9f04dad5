/** The Block's sheets for the hour when the power fails: the lots still to be called, with room for what the hammer brought. */
import { lotDetails } from '#lib/lot/details.ts';
import { quantityInWords } from '#lib/lot-words.ts';
import type { PaperGround, PaperLot } from '#lib/paper/facts.ts';
import { BLANK, cell, type ListPaper, listPaper } from '#lib/paper/list.ts';
import { countWords, goodsWords, shortMinimum, standsFor } from '#lib/paper/lot-words.ts';

/** `lots` are all lots of the sale in running order; those that were called stay out. */
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

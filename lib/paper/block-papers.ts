/** The bid sheet of a written sale: the lots with a place for one buyer's price each. */
import { lotDetails } from '#lib/lot/details.ts';
import { byNumber, goodsWords, quantityInWords, shortMinimum, standsFor } from '#lib/lot/words.ts';
import { countWords } from '#lib/result/text.ts';
import { clean } from '#lib/settlement/spelling.ts';
import type { PaperContext, PaperLot } from './facts.ts';
import { BLANK, cell, type ListCell, type ListPaper, listPaper, tableOf } from './list.ts';

export interface BidSheetBuyer {
  readonly buyerNo: number;
  readonly name: string;
}

/** One buyer's sheet, or with null a sheet on which the buyer writes number and name. Only lots that are still open. */
export function bidSheet(context: PaperContext, lots: readonly PaperLot[], buyer: BidSheetBuyer | null): ListPaper {
  const open = byNumber(lots.filter(({ outcome }) => outcome === null));
  return listPaper(context, {
    title: 'Bid sheet',
    number: { label: 'Buyer', words: buyer === null ? '' : String(buyer.buyerNo) },
    parties: buyer === null ? [] : [{ title: clean(buyer.name), sentences: [] }],
    opening: [
      ...(context.phase === undefined ? [] : [context.phase]),
      'Write the most you pay for a lot, standing for what is printed behind the box; leave the others empty.',
      'The highest bid at or above the minimum takes a lot, of equal bids the sheet handed in first, and of the same time the one typed first. Below the minimum the seller may accept or keep the lot.',
    ],
    tables: [
      tableOf(
        open,
        [
          ['lot', 'Lot', ({ lotNo }) => lotNo],
          ['goods', 'Goods', (lot) => cell(goodsWords(lot), lotDetails('list', lot))],
          ['quantity', 'Quantity', quantityInWords],
          ['price', 'Minimum', shortMinimum],
          ['blank', 'My bid', () => BLANK],
          ['tick', '', standsFor],
        ],
        { none: 'No lot is open for bids.', sum: open.length === 0 ? '' : countWords(open.length, 'lot') },
      ),
    ],
    signedAtTop: true,
    signatures: buyer === null ? ['Name and buyer number', 'Signature', 'Handed in at'] : ['Signature', 'Handed in at'],
  });
}

/** A bid as its bidder's slip tells it; every word as it is printed. */
interface SlipBid {
  readonly lotNo: string;
  readonly price: string;
  readonly handedIn: string;
  readonly end: string;
}

/** What became of one bidder's bids. Nobody else's stand on it. */
export function bidSlip(context: PaperContext, bids: readonly SlipBid[], buyer: BidSheetBuyer): ListPaper {
  return listPaper(context, {
    title: 'Results of your bids',
    number: { label: 'Buyer', words: String(buyer.buyerNo) },
    parties: [{ title: clean(buyer.name), sentences: [] }],
    opening: [],
    tables: [
      tableOf(
        bids,
        [
          ['lot', 'Lot', ({ lotNo }) => lotNo],
          ['price', 'My bid', ({ price }) => price],
          ['quantity', 'Handed in', ({ handedIn }) => handedIn],
          ['goods', 'Result', ({ end }) => cell(end === '' ? 'still open' : end)],
        ],
        { none: 'No bid.', sum: bids.length === 0 ? '' : countWords(bids.length, 'bid') },
      ),
    ],
  });
}

/**
 * The Block's sheets for the hour when the power fails: the lots still to be called, with room for what the hammer
 * brought.
 */
export function blockSheet(context: PaperContext, lots: readonly PaperLot[]): ListPaper {
  const open = lots.filter(({ outcome }) => outcome === null);
  return listPaper(context, {
    title: 'Block sheet',
    opening: [
      'For taking down by hand when the machine is silent. Write the price for what stands behind its box, the buyer number and the time.',
      'A lot that is not sold: write no-sale or withdrawn in the place of the price. One that its seller buys back: write the price, and 0 for the buyer. A mistake: strike it out once, write it again beside it, and sign.',
      ...(open.some(({ leftBids }) => leftBids.length > 0) ? [LEFT_BIDS] : []),
      'Enter the sheets at the Block afterwards in the order of the times, and keep them. Initial the foot of each.',
    ],
    tables: [
      tableOf(
        open,
        [
          ['lot', 'Lot', ({ lotNo }) => lotNo],
          ['goods', 'Goods', goodsToCall],
          ['quantity', 'Quantity', quantityInWords],
          ['number', 'Seller', ({ sellerNo }) => String(sellerNo)],
          ['price', 'Minimum', shortMinimum],
          ['blank', 'Price', () => BLANK],
          ['tick', '', standsFor],
          ['blank', 'Buyer', () => BLANK],
          ['blank', 'Time', () => BLANK],
        ],
        {
          none: 'No lot is left to be called.',
          sum: open.length === 0 ? '' : `${countWords(open.length, 'lot')} still to be called`,
        },
      ),
    ],
  });
}

const LEFT_BIDS = 'Left bids stand under the goods and are nobody’s to see but the clerk’s: keep the sheet face down.';

function goodsToCall(lot: PaperLot): ListCell {
  const hold = lot.holds.length > 0 ? 'ON HOLD: do not put up' : '';
  const bids = lot.leftBids.map(({ buyerNo, price }) => `left bid of buyer ${buyerNo}: ${price}`);
  return cell(goodsWords(lot), lotDetails('list', lot), hold, ...bids);
}

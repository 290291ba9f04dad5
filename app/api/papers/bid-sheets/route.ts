import { buyersOf } from '#db/queries/block-view.ts';
import { bidSheet } from '#lib/paper/bid-sheet.ts';
import { answerLists, type PaperScene } from '../lists.ts';

/**
 * Bid sheets of a written sale: `?sale=1` one for every buyer number, `&buyer=10` one buyer's, `&buyer=blank` one on
 * which the buyer writes the number.
 */
export function GET(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'bid-sheets',
    none: 'There is no such buyer number, or no lot open for bids: register the buyer at the Till, or print a blank sheet.',
    make: (scene) => {
      if (scene.sale.bidding !== 'sealed' || scene.lots.every(({ outcome }) => outcome !== null)) return [];
      return whose(scene).map((buyer) => bidSheet(scene.ground, scene.lots, buyer));
    },
  });
}

function whose({ book, sale, word }: PaperScene) {
  const named = word('buyer');
  if (named === 'blank') return [null];
  const buyers = buyersOf(book, sale.id);
  return named === null ? buyers : buyers.filter(({ buyerNo }) => String(buyerNo) === named);
}

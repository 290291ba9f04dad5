import type { BlockLot, BlockView } from '#db/queries/block-view.ts';
import type { OutcomeScene } from '#lib/decide-outcome.ts';
import { refuse } from '#lib/result.ts';

/** What was typed where a buyer number belongs. */
export const NO_NUMBER = refuse('malformed', 'Enter the buyer number in digits, as on the card.', 'buyerNo');

/** A buyer number as it is typed; null where it is none. */
export function readBuyerNo(typed: string): number | null {
  return /^[1-9]\d{0,4}$/.test(typed) ? Number.parseInt(typed, 10) : null;
}

/** What the questions before saving need to know of a buyer; null where nobody has this number. */
export function buyerOf(view: BlockView, lot: BlockLot, buyerNo: number | null): OutcomeScene['buyer'] {
  const found = view.buyers.find((one) => one.buyerNo === buyerNo);
  if (!found || buyerNo === null) return null;
  return { buyerNo, cleared: found.cleared, sellsThisLot: lot.sellersAsBuyers.includes(buyerNo) };
}

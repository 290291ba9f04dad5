import 'server-only';
import type { Book } from '#db/open.ts';
import { endsOfLots, type NumberOfLot, numberOfLot, numbersOfLots } from '#db/queries/numbers-of-lots.ts';
import { splitLotNo } from '#lib/lot-number.ts';
import { readLot } from '#lib/lot-ticket.ts';
import { lotsAskedFor } from '#lib/paper/ticket-request.ts';
import { accept, type Result } from '#lib/result.ts';

interface Whose {
  /** As they stand in the address; empty for all. */
  readonly seller: string;
  readonly lot: string;
}

/** What the form says of the lots whose tickets are asked for: a browser is not sent a hundred thousand numbers for it. */
export interface TicketsAsked {
  readonly many: number;
  readonly first: string;
  readonly last: string;
}

export function ticketsAsked(book: Book, saleId: number, whose: Whose): Result<TicketsAsked> {
  const all = whose.lot.trim() === '' && whose.seller.trim() === '' ? endsOfLots(book, saleId) : undefined;
  const asked = lotsAskedFor(all?.lots ?? someOf(book, saleId, whose), { saleId, ...whose });
  if (!asked.ok) return asked;
  const lots = asked.value;
  return accept({ many: all?.many ?? lots.length, first: lots[0]?.lotNo ?? '', last: lots.at(-1)?.lotNo ?? '' });
}

/** No more than could be meant: what is meant is for the rule to say. */
function someOf(book: Book, saleId: number, { seller, lot }: Whose): NumberOfLot[] {
  if (lot.trim() !== '') {
    const read = readLot(lot, saleId);
    return read.ok ? numberOfLot(book, saleId, splitLotNo(read.value)) : [];
  }
  const typed = seller.trim();
  return /^\d{1,5}$/.test(typed) ? numbersOfLots(book, saleId, { sellerNo: Number.parseInt(typed, 10) }) : [];
}

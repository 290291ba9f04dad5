/** The clerk's entries at the Block. */
import type { Question } from '#lib/decide-outcome.ts';
import { type Cents, cents } from '#lib/money.ts';
import type { Hall, TicketedLot } from './check-in.ts';
import { Refused, typed } from './hand.ts';

/** What the clerk is asked and says yes to without a second thought. The seller's minimum is not among it. */
const ROUTINE: readonly Question[] = ['price_unusual', 'off_step'];

export interface Won {
  readonly price: Cents;
  readonly buyerNo: number;
}

/** Writes a lot down as passed, or as taken home before it was called. */
export function recordUnsold({ hand, saleId }: Hall, { lotNo }: TicketedLot, kind: 'passed' | 'withdrawn'): void {
  hand.give('block', 'outcome.record', { saleId, lotNo, kind });
}

/** Writes a price down; `answered` is what the clerk asked the seller beforehand. */
export function recordSold(
  { hand, saleId }: Hall,
  lot: TicketedLot,
  won: Won & { answered: readonly Question[] },
): void {
  const input = { saleId, lotNo: lot.lotNo, kind: 'sold', price: typed(won.price), buyerNo: won.buyerNo } as const;
  answering(won.answered, (answered) => hand.give('block', 'outcome.record', { ...input, answered }));
}

/** The clerk writes ten times the price, sees it at once and puts it right. */
export function recordMisheard({ hand, saleId }: Hall, { lotNo, lotId }: TicketedLot, { price, buyerNo }: Won): void {
  const sold = { kind: 'sold', buyerNo } as const;
  const wrong = { saleId, lotNo, ...sold, price: typed(cents(price * 10)) };
  const first = answering([], (answered) => hand.give('block', 'outcome.record', { ...wrong, answered }));
  const reason = `Typed with the point one place too far: the hammer fell at ${typed(price)}.`;
  const right = { lotId, replacesId: first.outcomeId, reason, ...sold, price: typed(price) };
  answering([], (answered) => hand.give('block', 'outcome.correct', { ...right, answered }));
}

/** Gives an entry; where the book asks something routine, the answer goes with it and it is given again. */
function answering<T>(answered: readonly Question[], give: (answered: readonly Question[]) => T): T {
  try {
    return give(answered);
  } catch (refused) {
    const asked = ROUTINE.find((question) => refused instanceof Refused && refused.field === question);
    if (!asked || answered.includes(asked)) throw refused;
    return answering([...answered, asked], give);
  }
}

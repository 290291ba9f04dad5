/** The auction: each lot is called in turn, and the clerk writes down what the hammer said. */
import { type Cents, cents } from '#lib/money/money.ts';
import type { OutcomeQuestion } from '#lib/outcome/decide-outcome.ts';
import type { Hall, TicketedLot } from './check-in.ts';
import { DriverRefused, typed } from './driver.ts';
import { worthOf } from './lots.ts';
import { hammer, onStep } from './market.ts';
import { biddersOn } from './people.ts';
import { type Prng, prngFor } from './prng.ts';

export function callLots(hall: Hall, lots: readonly TicketedLot[]): void {
  const prng = prngFor(`${hall.sale.name}, hammer`);
  for (const ticketed of lots) callLot(hall, ticketed, prng);
}

function callLot(hall: Hall, ticketed: TicketedLot, prng: Prng): void {
  const { fate } = ticketed.lot;
  const won = winningBid(hall, ticketed, prng);
  const minimum = minimumOf(hall, ticketed);
  const short = minimum !== null && won.price < minimum;
  if (fate === 'withdrawn' || fate === 'passed') recordUnsold(hall, ticketed, fate);
  else if (short && fate !== 'accepted') recordUnsold(hall, ticketed, 'passed');
  else if (fate === 'misheard') recordMisheard(hall, ticketed, won);
  else {
    recordSold(hall, ticketed, won, short ? ['below_minimum'] : []);
    if (prng.permille(90)) noteUnderBid(hall, ticketed, won);
  }
}

/** The best of the left bids, or whoever in the hall goes highest. */
function winningBid({ sale: { season } }: Hall, { lot }: TicketedLot, prng: Prng): Won {
  const value = worthOf(lot, season);
  const fromHall = { price: hammer(value, prng), buyerNo: prng.pick(biddersOn(lot.goods, season)).buyerNo };
  const [left] = [...lot.leftBids].sort((a, b) => b.share - a.share);
  if (left === undefined) return fromHall;
  return { price: onStep(value.times(left.share).dividedBy(1000)), buyerNo: left.buyerNo };
}

function minimumOf({ sale: { season } }: Hall, { lot }: TicketedLot): Cents | null {
  return lot.minimum === null ? null : onStep(worthOf(lot, season).times(lot.minimum).dividedBy(1000));
}

/** The clerk sometimes notes who bid last before the winner. */
function noteUnderBid({ driver, sale: { season }, saleId }: Hall, { lotNo, lot }: TicketedLot, won: Won): void {
  const other = biddersOn(lot.goods, season).find(({ buyerNo }) => buyerNo !== won.buyerNo);
  if (other === undefined || won.price <= 25) return;
  const price = typed(cents(won.price - 25));
  driver.submit('block', 'bid.leave', { saleId, lotNo, buyerNo: other.buyerNo, kind: 'under', price });
}

/** What the clerk is asked and says yes to without a second thought. The seller's minimum is not among it. */
const ROUTINE: readonly OutcomeQuestion[] = ['price_unusual', 'off_step'];

interface Won {
  readonly price: Cents;
  readonly buyerNo: number;
}

/** Writes a lot down as passed, or as taken home before it was called. */
function recordUnsold({ driver, saleId }: Hall, { lotNo }: TicketedLot, kind: 'passed' | 'withdrawn'): void {
  driver.submit('block', 'outcome.record', { saleId, lotNo, kind });
}

/** Writes a price down; `asked` is what the clerk asked the seller beforehand. */
function recordSold(hall: Hall, { lotNo }: TicketedLot, { price, buyerNo }: Won, asked: readonly OutcomeQuestion[]) {
  const input = { saleId: hall.saleId, lotNo, kind: 'sold', price: typed(price), buyerNo } as const;
  answering(asked, (answered) => hall.driver.submit('block', 'outcome.record', { ...input, answered }));
}

/** The clerk writes ten times the price, sees it at once and puts it right. */
function recordMisheard({ driver, saleId }: Hall, { lotNo, lotId }: TicketedLot, { price, buyerNo }: Won): void {
  const sold = { kind: 'sold', buyerNo } as const;
  const wrong = { saleId, lotNo, ...sold, price: typed(cents(price * 10)) };
  const first = answering([], (answered) => driver.submit('block', 'outcome.record', { ...wrong, answered }));
  const reason = `Typed with the point one place too far: the hammer fell at ${typed(price)}.`;
  const right = { lotId, replacesId: first.outcomeId, reason, ...sold, price: typed(price) };
  answering([], (answered) => driver.submit('block', 'outcome.correct', { ...right, answered }));
}

/** Gives an entry; where the book asks something routine, the answer goes with it and it is given again. */
function answering<T>(answered: readonly OutcomeQuestion[], give: (answered: readonly OutcomeQuestion[]) => T): T {
  try {
    return give(answered);
  } catch (refused) {
    const asked = ROUTINE.find((question) => refused instanceof DriverRefused && refused.field === question);
    if (!asked || answered.includes(asked)) throw refused;
    return answering([...answered, asked], give);
  }
}

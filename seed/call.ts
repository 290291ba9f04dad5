/** The auction: each lot is called in turn, and the clerk writes down what the hammer said. */
import { type Cents, cents } from '#lib/money.ts';
import { biddersOn } from './buyers.ts';
import { type Chance, chanceFor } from './chance.ts';
import type { Hall, TicketedLot } from './check-in.ts';
import { recordMisheard, recordSold, recordUnsold, type Won } from './clerk.ts';
import { typed } from './hand.ts';
import { hammer, onStep } from './market.ts';
import { worthOf } from './value.ts';

export function callLots(hall: Hall, lots: readonly TicketedLot[]): void {
  const chance = chanceFor(`${hall.sale.name}, hammer`);
  for (const ticketed of lots) callLot(hall, ticketed, chance);
}

function callLot(hall: Hall, ticketed: TicketedLot, chance: Chance): void {
  const { fate } = ticketed.lot;
  const won = winningBid(hall, ticketed, chance);
  const minimum = minimumOf(hall, ticketed);
  const short = minimum !== null && won.price < minimum;
  if (fate === 'withdrawn' || fate === 'passed') recordUnsold(hall, ticketed, fate);
  else if (short && fate !== 'accepted') recordUnsold(hall, ticketed, 'passed');
  else if (fate === 'misheard') recordMisheard(hall, ticketed, won);
  else {
    recordSold(hall, ticketed, { ...won, answered: short ? ['below_minimum'] : [] });
    if (chance.permille(90)) noteUnderBid(hall, ticketed, won);
  }
}

/** The best of the left bids, or whoever in the hall goes highest. */
function winningBid({ sale: { season } }: Hall, { lot }: TicketedLot, chance: Chance): Won {
  const value = worthOf(lot, season);
  const fromHall = { price: hammer(value, chance), buyerNo: chance.pick(biddersOn(lot.goods, season)).buyerNo };
  const [left] = [...lot.leftBids].sort((a, b) => b.share - a.share);
  if (left === undefined) return fromHall;
  return { price: onStep(value.times(left.share).dividedBy(1000)), buyerNo: left.buyerNo };
}

function minimumOf({ sale: { season } }: Hall, { lot }: TicketedLot): Cents | null {
  return lot.minimum === null ? null : onStep(worthOf(lot, season).times(lot.minimum).dividedBy(1000));
}

/** The clerk sometimes notes who bid last before the winner. */
function noteUnderBid({ hand, sale: { season }, saleId }: Hall, { lotNo, lot }: TicketedLot, won: Won): void {
  const other = biddersOn(lot.goods, season).find(({ buyerNo }) => buyerNo !== won.buyerNo);
  if (other === undefined || won.price <= 25) return;
  const price = typed(cents(won.price - 25));
  hand.give('block', 'bid.leave', { saleId, lotNo, buyerNo: other.buyerNo, kind: 'under', price });
}

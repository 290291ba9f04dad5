/** One sale from its plan to its close, or to the middle of its auction. */
import type { Stage } from '#lib/facts.ts';
import { arrivals } from './arrivals.ts';
import { type PlannedSale, planOf } from './calendar.ts';
import { callLots } from './call.ts';
import { checkIn, checkInBuyers, type Hall, type TicketedLot, takeLeftBids } from './check-in.ts';
import { closeDrawer, openDrawer } from './drawer.ts';
import type { Hand } from './hand.ts';
import { settleAndPay, takePayments } from './pay.ts';
import type { People } from './people.ts';

/** The only buyer of this season's sale who has paid: they had to leave early. The others are unpaid. */
export const LEFT_EARLY = 8;

function open(hand: Hand, people: People, sale: PlannedSale): { hall: Hall; lots: TicketedLot[] } {
  hand.clock(sale.heldOn, '13:00');
  const saleId = hand.give('office', 'sale.plan', planOf(sale)).saleId;
  const hall = { hand, people, sale, saleId };
  stage(hall, 'intake');
  openDrawer(hall);
  const lots = checkIn(hall, arrivals(sale));
  hand.clock(sale.heldOn, '16:30');
  checkInBuyers(hall);
  takeLeftBids(hall, lots);
  stage(hall, 'selling');
  hand.clock(sale.heldOn, '17:00');
  return { hall, lots };
}

function stage({ hand, saleId }: Hall, to: Stage): void {
  hand.give('office', 'sale.stage', { saleId, stage: to, reason: '' });
}

/** A past sale: everything called, paid and closed. */
export function holdSale(hand: Hand, people: People, sale: PlannedSale): void {
  const { hall, lots } = open(hand, people, sale);
  callLots(hall, lots);
  hand.clock(sale.heldOn, '19:00');
  takePayments(hall);
  stage(hall, 'settling');
  hand.clock(sale.heldOn, '20:30');
  settleAndPay(hall);
  closeDrawer(hall);
  stage(hall, 'closed');
}

/** This season's sale: half of its lots called, one buyer gone home with everything paid. */
export function beginSale(hand: Hand, people: People, sale: PlannedSale): void {
  const { hall, lots } = open(hand, people, sale);
  callLots(hall, lots.slice(0, Math.floor(lots.length / 2)));
  takePayments(hall, [LEFT_EARLY]);
}

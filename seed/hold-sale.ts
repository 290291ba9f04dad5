/** One sale from its plan to its close, or to the middle of its auction. */

import { saleById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { drawerEntries, drawerMoves } from '#db/drawer/queries.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { type PayoutView, payoutView } from '#db/settlement/payout-view.ts';
import { piecesOf } from '#lib/buyer/handover.ts';
import { denominationsOf } from '#lib/drawer/cash.ts';
import { reckonDrawer, stintOf } from '#lib/drawer/drawer.ts';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { type Cents, formatMoney, negate, ZERO } from '#lib/money/money.ts';
import type { Stage } from '#lib/sale/facts.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { type PlannedSale, planOf } from './calendar.ts';
import { callLots } from './call.ts';
import { arrivals, checkIn, checkInBuyers, type Hall, type TicketedLot, takeLeftBids } from './check-in.ts';
import { type Hand, typed } from './hand.ts';
import { BUYERS, type People } from './people.ts';

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

// The afternoon: buyers pay at the Till, sheets are issued, sellers are paid, and the sale is closed.

/** Bills the named buyers, or everybody, takes what they owe, and hands them their lots. */
function takePayments({ hand, saleId }: Hall, buyerNos?: readonly number[]): void {
  for (const invoice of invoiceSale(saleFacts(hand.book, saleId))) {
    const { buyerNo, totalCents } = invoice;
    if (buyerNos !== undefined && !buyerNos.includes(buyerNo)) continue;
    const house = BUYERS.find((one) => one.buyerNo === buyerNo);
    const method = house?.method ?? 'cash';
    const reference = method === 'check' ? `Check ${7000 + saleId * 100 + buyerNo}` : '';
    const payment = { saleId, direction: 'in', buyerNo, method, amount: typed(totalCents), reference } as const;
    hand.give('till', 'invoice.issue', { saleId, buyerNo });
    hand.give('till', 'payment.record', payment);
    const lots = invoice.rows.map(({ lotNo }) => lotNo);
    const pieces = String(piecesOf(invoice.rows));
    hand.give('till', 'handover.record', { saleId, buyerNo, lots, pieces, takenBy: house?.name ?? 'the buyer' });
  }
}

/** Issues every sheet, writes a check to each partner who has something to get, and takes what the others owe in cash. */
function settleAndPay({ hand, saleId }: Hall): void {
  hand.give('payout', 'settlement.issue', { saleId, sellerNo: null, seen: seenAt(hand.book, saleId).ready });
  for (const { sellerNo, netCents } of settleSale(saleFacts(hand.book, saleId))) {
    if (netCents >= 0) continue;
    const owed = { direction: 'in', method: 'cash', amount: typed(negate(netCents)), reference: '' } as const;
    hand.give('payout', 'payment.record', { saleId, sellerNo, ...owed });
  }
  const seen = seenAt(hand.book, saleId).checks.count;
  hand.give('payout', 'check.write', { saleId, sellerNo: null, firstNumber: 2001 + saleId * 200, seen });
}

/** What the treasurer looks at before an act on everybody. */
function seenAt(book: Book, saleId: number): PayoutView {
  const sale = saleById(book, saleId);
  if (!sale) throw new RangeError(`there is no sale ${saleId}`);
  return payoutView(book, sale);
}

// The till's drawer: opened in the morning with a float, closed at night with what lies in it.

/** 200.00 in notes and coins. */
const FLOAT = { '20.00': '4', '10.00': '6', '5.00': '8', '1.00': '15', '0.25': '20' };

function openDrawer({ hand, saleId }: Hall): void {
  const pieces = Object.entries(FLOAT).map(([denomination, count]) => ({ denomination, pieces: count }));
  hand.give('till', 'drawer.record', { saleId, kind: 'opened', pieces });
}

/** Counts what should be there, to the cent: the demo's cashiers make no slip. */
function closeDrawer({ hand, saleId }: Hall): void {
  const stint = stintOf(drawerEntries(hand.book, saleId));
  const lines = reckonDrawer(stint, drawerMoves(hand.book, saleId), null);
  const due = (method: string): Cents => lines.find((line) => line.method === method)?.expectedCents ?? ZERO;
  const beside = { checks: formatMoney(due('check')), cards: formatMoney(due('card')) };
  hand.give('till', 'drawer.record', { saleId, kind: 'closed', pieces: madeUp(due('cash')), ...beside });
}

/** An amount in as few notes and coins as there can be. */
function madeUp(amount: Cents): { denomination: string; pieces: string }[] {
  let left: number = amount;
  return denominationsOf('USD').flatMap(({ cents }) => {
    const count = Math.floor(left / cents);
    left -= count * cents;
    return count > 0 ? [{ denomination: formatMoney(cents), pieces: String(count) }] : [];
  });
}

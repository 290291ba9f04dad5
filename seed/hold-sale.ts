/** The demo's sales, each from its plan to its close, or to the middle of its auction. */

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
import { ASSOCIATION } from './association.ts';
import { type PlannedSale, planOf, SALES } from './calendar.ts';
import { callLots } from './call.ts';
import { arrivals, checkIn, checkInBuyers, type Hall, type TicketedLot, takeLeftBids } from './check-in.ts';
import { type Driver, driverFor, typed } from './driver.ts';
import { BUYERS, type People } from './people.ts';

/** The only buyer of this season's sale who has paid: they had to leave early. The others are unpaid. */
export const LEFT_EARLY = 8;

/**
 * Fills an empty book with the demo: three winters held, paid and closed, and this season's sale half sold.
 * Everything goes through the door, and comes out the same every time.
 */
export function fillBook(book: Book): void {
  const driver = driverFor(book);
  const people: People = new Map();
  driver.clock(SALES[0]?.heldOn ?? '', '12:45');
  driver.submit('office', 'association.set', ASSOCIATION);
  for (const sale of SALES.slice(0, -1)) holdSale(driver, people, sale);
  for (const sale of SALES.slice(-1)) beginSale(driver, people, sale);
}

function open(driver: Driver, people: People, sale: PlannedSale): { hall: Hall; lots: TicketedLot[] } {
  driver.clock(sale.heldOn, '13:00');
  const saleId = driver.submit('office', 'sale.plan', planOf(sale)).saleId;
  const hall = { driver, people, sale, saleId };
  stage(hall, 'intake');
  openDrawer(hall);
  const lots = checkIn(hall, arrivals(sale));
  driver.clock(sale.heldOn, '16:30');
  checkInBuyers(hall);
  takeLeftBids(hall, lots);
  stage(hall, 'selling');
  driver.clock(sale.heldOn, '17:00');
  return { hall, lots };
}

function stage({ driver, saleId }: Hall, to: Stage): void {
  driver.submit('office', 'sale.stage', { saleId, stage: to, reason: '' });
}

/** A past sale: everything called, paid and closed. */
function holdSale(driver: Driver, people: People, sale: PlannedSale): void {
  const { hall, lots } = open(driver, people, sale);
  callLots(hall, lots);
  driver.clock(sale.heldOn, '19:00');
  takePayments(hall);
  stage(hall, 'settling');
  driver.clock(sale.heldOn, '20:30');
  settleAndPay(hall);
  closeDrawer(hall);
  stage(hall, 'closed');
}

/** This season's sale: half of its lots called, one buyer gone home with everything paid. */
function beginSale(driver: Driver, people: People, sale: PlannedSale): void {
  const { hall, lots } = open(driver, people, sale);
  callLots(hall, lots.slice(0, Math.floor(lots.length / 2)));
  takePayments(hall, [LEFT_EARLY]);
}

/** Bills the named buyers, or everybody, takes what they owe, and hands them their lots. */
function takePayments({ driver, saleId }: Hall, buyerNos?: readonly number[]): void {
  for (const invoice of invoiceSale(saleFacts(driver.book, saleId))) {
    const { buyerNo, totalCents } = invoice;
    if (buyerNos !== undefined && !buyerNos.includes(buyerNo)) continue;
    const house = BUYERS.find((one) => one.buyerNo === buyerNo);
    const method = house?.method ?? 'cash';
    const reference = method === 'check' ? `${7000 + saleId * 100 + buyerNo}` : '';
    const payment = { saleId, direction: 'in', buyerNo, method, amount: typed(totalCents), reference } as const;
    driver.submit('till', 'invoice.issue', { saleId, buyerNo });
    driver.submit('till', 'payment.record', payment);
    const lots = invoice.rows.map(({ lotNo }) => lotNo);
    const pieces = String(piecesOf(invoice.rows));
    driver.submit('till', 'handover.record', { saleId, buyerNo, lots, pieces, takenBy: house?.name ?? 'the buyer' });
  }
}

/** Issues every sheet, writes a check to each partner who has something to get, and takes what the others owe in cash. */
function settleAndPay({ driver, saleId }: Hall): void {
  driver.submit('payout', 'settlement.issue', { saleId, sellerNo: null, seen: seenAt(driver.book, saleId).ready });
  for (const { sellerNo, netCents } of settleSale(saleFacts(driver.book, saleId))) {
    if (netCents >= 0) continue;
    const owed = { direction: 'in', method: 'cash', amount: typed(negate(netCents)), reference: '' } as const;
    driver.submit('payout', 'payment.record', { saleId, sellerNo, ...owed });
  }
  const seen = seenAt(driver.book, saleId).checks.count;
  driver.submit('payout', 'check.write', { saleId, sellerNo: null, firstNumber: 2001 + saleId * 200, seen });
}

/** What the treasurer looks at before an act on everybody. */
function seenAt(book: Book, saleId: number): PayoutView {
  const sale = saleById(book, saleId);
  if (!sale) throw new RangeError(`there is no sale ${saleId}`);
  return payoutView(book, sale);
}

/** 200.00 in notes and coins. */
const FLOAT = { '20.00': '4', '10.00': '6', '5.00': '8', '1.00': '15', '0.25': '20' };

function openDrawer({ driver, saleId }: Hall): void {
  const pieces = Object.entries(FLOAT).map(([denomination, count]) => ({ denomination, pieces: count }));
  driver.submit('till', 'drawer.record', { saleId, kind: 'opened', pieces });
}

/** Counts what should be there, to the cent: the demo's cashiers make no slip. */
function closeDrawer({ driver, saleId }: Hall): void {
  const stint = stintOf(drawerEntries(driver.book, saleId));
  const lines = reckonDrawer(stint, drawerMoves(driver.book, saleId), null);
  const due = (method: string): Cents => lines.find((line) => line.method === method)?.expectedCents ?? ZERO;
  const beside = { checks: formatMoney(due('check')), cards: formatMoney(due('card')) };
  driver.submit('till', 'drawer.record', { saleId, kind: 'closed', pieces: madeUp(due('cash')), ...beside });
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

/** What somebody asks for who prints tickets: whose lots, on which stock, and how the labels lie. */

import { readLot } from '#lib/lot-ticket.ts';
import type { PaperLot } from '#lib/paper/facts.ts';
import { type Offset, parseOffset, parseStartLabel } from '#lib/paper/label-stock.ts';
import { byNumber } from '#lib/paper/lot-words.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result.ts';

const STOCKS = ['labels', 'halves', 'alignment'] as const;
/** Sheets of labels, larger tickets two a page, or the page that aligns a printer to the labels. */
type Stock = (typeof STOCKS)[number];

export interface TicketRequest {
  readonly stock: Stock;
  readonly start: number;
  readonly offset: Offset;
}

/** The words of the form or the address, each empty where nothing was typed. */
export type TicketWords = Readonly<Record<'stock' | 'start' | 'right' | 'down', string>>;

/** Reads the request; everything that is wrong is told at once. */
export function readTicketRequest({ stock, start, right, down }: TicketWords): Result<TicketRequest> {
  const known = STOCKS.find((one) => one === (stock || 'labels'));
  const label = atField(parseStartLabel(start), 'start');
  const toRight = atField(parseOffset(right), 'right');
  const toDown = atField(parseOffset(down), 'down');
  const wrong = [known ? null : NO_STOCK, label, toRight, toDown].filter((one): one is Refusal => one?.ok === false);
  const [first, ...also] = wrong;
  if (first) return { ...first, ...(also.length > 0 ? { also } : {}) };
  if (!known || !label.ok || !toRight.ok || !toDown.ok) return NO_STOCK;
  const offset = { rightTenthsMm: toRight.value, downTenthsMm: toDown.value };
  return accept({ stock: known, start: label.value, offset });
}

const NO_STOCK = refuse('malformed', `Choose what to print on: ${STOCKS.join(', ')}.`, 'stock');

function atField<T>(result: Result<T>, field: string): Result<T> {
  return result.ok ? result : { ...result, field };
}

interface Whose {
  readonly saleId: number;
  /** A seller number and a lot number as typed or scanned; empty for all. */
  readonly seller: string;
  readonly lot: string;
}

/** What of a lot says whether its ticket is asked for. */
type TicketLot = Pick<PaperLot, 'lotNo' | 'sellerNo'>;

/** The lots whose tickets are asked for, by lot number as they lie on the shelf: one lot, one seller number's, or all. */
export function lotsAskedFor<T extends TicketLot>(lots: readonly T[], { saleId, seller, lot }: Whose): Result<T[]> {
  if (lot.trim() !== '') return oneLot(lots, { saleId, lot });
  const sorted = byNumber(lots);
  const whose = seller.trim().replace(/^0+/, '');
  const asked = seller.trim() === '' ? sorted : sorted.filter(({ sellerNo }) => String(sellerNo) === whose);
  if (asked.length > 0) return accept(asked);
  if (seller.trim() === '') return refuse('unknown', 'No lot has been checked in yet.');
  return refuse('unknown', `Seller number ${seller.trim()} has no lots in this sale: check the number.`, 'seller');
}

function oneLot<T extends TicketLot>(lots: readonly T[], { saleId, lot }: Pick<Whose, 'saleId' | 'lot'>): Result<T[]> {
  const read = atField(readLot(lot, saleId), 'lot');
  if (!read.ok) return read;
  const found = lots.filter(({ lotNo }) => lotNo === read.value);
  return found.length > 0
    ? accept(found)
    : refuse('unknown', `There is no lot ${read.value}: check the number.`, 'lot');
}

/**
 * What the hall sees: the lot that is up, what was brought, how many are left. No names, no minimums, no left bids; and no
 * seller numbers, or whoever writes along knows by the evening what each of them took home.
 */

import { createHmac } from 'node:crypto';
import { goodsById, lotById, type SaleRow } from '#db/book/find.ts';
import { lineAt, newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { nextLots, type OpenLot, openLots } from '#db/lot/open-lots.ts';
import { howManyLots } from '#db/lot/papers.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { digestOf } from '#db/sign-in/store.ts';
import { lotDetails } from '#lib/lot/details.ts';
import { cents } from '#lib/money/money.ts';
import { areClosed } from '#lib/outcome/bid.ts';
import { publicParts } from '#lib/sale/public.ts';
import { joined, priceFor, quantityFor } from '#lib/settlement/spelling.ts';
import { type CalledLot, calledLots, calledLotsOfSeller, glance } from './called.ts';
import { writtenPhase } from './written-view.ts';

const RESULTS = 7;

interface BoardLot {
  readonly lotNo: string;
  /** `32 pieces Muskrat`. */
  readonly goods: string;
  readonly details: string;
}

export interface BoardResult extends Pick<CalledLot, 'lotNo' | 'kind' | 'buyerNo'> {
  readonly goods: string;
  /** `13.25`, or empty where the lot was not sold. */
  readonly price: string;
  /** `each`, `the lot`, `a pound`, `an ounce`. */
  readonly standsFor: string;
}

export interface SaleAt {
  readonly sale: SaleRow;
  readonly now: string;
}

/** Sales whose Boards are the same until the log grows. */
export function byPhase({ sale, now }: SaleAt): string {
  const { bidsCloseAt: closeAt, bidsClosedAt: closedAt, bidsAwardedAt: awardedAt } = sale;
  return `${sale.id} ${areClosed({ at: now, closeAt, closedAt, awardedAt })}`;
}

export interface BoardView {
  readonly line: number;
  readonly saleId: number;
  readonly name: string;
  readonly selling: boolean;
  /** At a written sale, where it is: `Written bids are taken until 3:00 PM.`; else empty. */
  readonly phase: string;
  readonly up: BoardLot | null;
  /** Newest first; the first is what the last lot brought. */
  readonly results: readonly BoardResult[];
  readonly left: number;
  /** Of the association: times are said by its clock. */
  readonly timeZone: string;
}

/** `now` is an ISO 8601 time in UTC: the clock closes written bids, and no entry of the log says so. */
export function boardView(book: Book, { sale, now }: SaleAt): BoardView {
  const [next] = nextLots(book, sale, 1);
  const { left } = glance(book, sale.id, howManyLots(book, sale.id));
  const selling = sale.stage === 'selling' && sale.bidding === 'floor';
  return {
    ...{ line: newestLine(book), saleId: sale.id, name: sale.name, selling, left },
    phase: sale.bidding === 'sealed' && publicParts(sale.stage).board ? writtenPhase(book, sale, now).says : '',
    timeZone: timeZoneOf(book),
    up: selling && next ? boardLot(book, next) : null,
    results: onBoard(book, sale).map(boardResult),
  };
}

/** The lots that the Board says one by one at this moment, newest first. */
export function onBoard(book: Book, { id, stage }: Pick<SaleRow, 'id' | 'stage'>): CalledLot[] {
  return publicParts(stage).board ? calledLots(book, id, RESULTS) : [];
}

function boardLot(book: Book, { lotId, lotNo, goodsName }: OpenLot): BoardLot | null {
  const lot = lotById(book, lotId);
  const goods = lot && goodsById(book, lot.goodsId);
  if (!lot || !goods) return null;
  return {
    lotNo,
    goods: joined([quantityFor(lot).words, goodsName], ' '),
    details: lotDetails('board', lot, ', '),
  };
}

/** A board is read out: `3.50 an ounce`, where a paper has `3.50 / oz`. */
const ALOUD: Readonly<Record<string, string>> = { '/ oz': 'an ounce', '/ lb': 'a pound' };

function boardResult({ lotNo, goodsName, kind, priceCents, buyerNo, measured }: CalledLot): BoardResult {
  const price = priceFor(priceCents ?? cents(0), measured.by);
  const goods = joined([quantityFor(measured).words, goodsName], ' ');
  // Only a sale has a price to be seen: who bought back, or has not paid, is nobody's business in the hall.
  const sold = kind === 'sold' && priceCents !== null;
  const shown = sold ? price.figure : '';
  const standsFor = sold ? (ALOUD[price.unit] ?? price.unit) : '';
  return { lotNo, goods, kind, price: shown, standsFor, buyerNo: sold ? buyerNo : null };
}

export interface SellerBoard {
  readonly line: number;
  readonly saleId: number;
  readonly name: string;
  readonly sellerNo: number;
  readonly results: readonly BoardResult[];
  readonly open: readonly { readonly lotNo: string; readonly goods: string; readonly before: number }[];
}

/** Letters and digits that are not taken for one another, as in the one-time codes. */
const LETTERS = 'ABCDEFGHJKMNPQRSTVWXYZ23456789';
const CODE_LENGTH = 8;

/**
 * The code on the receipt of a seller number, by which its lots are followed: `KXRM-4TQZ`. It is made of the drawn key of
 * the book's first line, which no page and no paper shows; so it needs no row, and is the same on a laptop that took over.
 */
export function sellerCode(book: Book, saleId: number, sellerNo: number): string {
  const secret = lineAt(book, 1)?.key ?? '';
  const sum = createHmac('sha256', secret).update(`follow\0${saleId}\0${sellerNo}`).digest();
  const letters = [...sum.subarray(0, CODE_LENGTH)].map((byte) => LETTERS.charAt(byte % LETTERS.length)).join('');
  return `${letters.slice(0, 4)}-${letters.slice(4)}`;
}

/** The lots of a seller number for whoever brings its code, however it is typed; null where it is another. */
export function sellerBoardFor(
  book: Book,
  sale: SaleRow,
  { sellerNo, code }: { readonly sellerNo: number; readonly code: string },
): SellerBoard | null {
  const bare = (text: string) => digestOf(text.toUpperCase().replace(/[^A-Z0-9]/g, ''));
  return bare(code) === bare(sellerCode(book, sale.id, sellerNo)) ? sellerBoard(book, sale, sellerNo) : null;
}

/**
 * One seller number's lots as the hall may see them while they are being sold: called with the price that was called
 * aloud, or how many come before them. No sum: what somebody earns is for the settlement sheet. Null where the sale is
 * not being sold: then the results are for the seller alone.
 */
export function sellerBoard(book: Book, sale: SaleRow, sellerNo: number): SellerBoard | null {
  if (!publicParts(sale.stage).ofSeller) return null;
  return {
    ...{ line: newestLine(book), saleId: sale.id, name: sale.name, sellerNo },
    results: calledLotsOfSeller(book, sale.id, sellerNo).map(boardResult),
    open: openLots(book, sale).flatMap((lot, before) =>
      lot.sellerNo === sellerNo ? [{ lotNo: lot.lotNo, goods: lot.goodsName, before }] : [],
    ),
  };
}

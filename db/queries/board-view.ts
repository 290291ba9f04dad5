/** What the hall sees: the lot that is up, what was brought, how many are left. No names, no minimums, no left bids. */

import { lotDetails } from '#lib/lot/details.ts';
import { cents } from '#lib/money.ts';
import { joined, priceFor, quantityFor } from '#lib/sheet/spell.ts';
import { newestLine } from '../log.ts';
import type { Book } from '../open.ts';
import { type CalledLot, calledLots } from './called-lots.ts';
import { goodsById, lotById, type SaleRow } from './find.ts';
import { keptUntilLine } from './kept.ts';
import type { OpenLot } from './open-lot.ts';
import { openLotsOnScreen } from './open-lots.ts';

const RESULTS = 7;

export interface BoardLot {
  readonly lotNo: string;
  readonly sellerNo: number;
  /** `32 pieces Muskrat`. */
  readonly goods: string;
  readonly details: string;
}

export interface BoardResult {
  readonly lotNo: string;
  readonly goods: string;
  readonly sellerNo: number;
  readonly kind: CalledLot['kind'];
  /** `13.25`, or empty where the lot was not sold. */
  readonly price: string;
  /** `each`, `the lot`, `a pound`, `an ounce`. */
  readonly standsFor: string;
  readonly buyerNo: number | null;
}

export interface BoardView {
  readonly line: number;
  readonly saleId: number;
  readonly name: string;
  readonly selling: boolean;
  readonly up: BoardLot | null;
  /** Newest first; the first is what the last lot brought. */
  readonly results: readonly BoardResult[];
  readonly left: number;
}

/** Kept until the log moves: two hundred boards ask for it at the same moment. */
export function boardView(book: Book, sale: SaleRow): BoardView {
  return keptUntilLine(book, `board ${sale.id}`, () => boardNow(book, sale));
}

function boardNow(book: Book, sale: SaleRow): BoardView {
  const open = openLotsOnScreen(book, sale);
  const selling = sale.stage === 'selling' && sale.bidding === 'floor';
  return {
    ...{ line: newestLine(book), saleId: sale.id, name: sale.name, selling, left: open.length },
    up: selling && open[0] ? boardLot(book, open[0]) : null,
    // What single lots brought once is for those who sold and bought them.
    results: sale.stage === 'closed' ? [] : calledLots(book, sale.id, RESULTS).map(boardResult),
  };
}

function boardLot(book: Book, { lotId, lotNo, sellerNo, goodsName }: OpenLot): BoardLot | null {
  const lot = lotById(book, lotId);
  const goods = lot && goodsById(book, lot.goodsId);
  if (!lot || !goods) return null;
  return {
    lotNo,
    sellerNo,
    goods: joined([quantityFor(lot).words, goodsName], ' '),
    details: lotDetails('board', lot, ', '),
  };
}

/** A board is read out: `3.50 an ounce`, where a paper has `3.50 / oz`. */
const ALOUD: Readonly<Record<string, string>> = { '/ oz': 'an ounce', '/ lb': 'a pound' };

export function boardResult({
  lotNo,
  goodsName,
  sellerNo,
  kind,
  priceCents,
  buyerNo,
  measured,
}: CalledLot): BoardResult {
  const price = priceFor(priceCents ?? cents(0), measured.by);
  const goods = joined([quantityFor(measured).words, goodsName], ' ');
  const shown = priceCents === null ? '' : price.figure;
  const standsFor = priceCents === null ? '' : (ALOUD[price.unit] ?? price.unit);
  return { lotNo, goods, sellerNo, kind, price: shown, standsFor, buyerNo };
}

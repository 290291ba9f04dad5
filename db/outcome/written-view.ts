/** A sale of written bids: the lots with their bids, and what closing would make, or has made, of each. */

import { lotById, type SaleRow } from '#db/book/find.ts';
import { newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { type OpenLot, openLots } from '#db/lot/open-lots.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { holdsOfLotId } from '#db/tag/queries.ts';
import { momentInWords } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import { showMoney } from '#lib/money/money.ts';
import { type Award, decideAwards } from '#lib/outcome/award.ts';
import { priceFor, quantityFor } from '#lib/settlement/spelling.ts';
import { type WrittenBid, writtenBids } from './bids.ts';
import { type BlockBuyer, buyersOf } from './block-view.ts';
import { type CalledLot, calledLots } from './called.ts';

const EVERY_LOT = 100_000;

export interface WrittenLot {
  readonly lotNo: string;
  readonly sellerNo: number;
  readonly goodsName: string;
  /** `32 pieces`. */
  readonly quantity: string;
  /** `8.00 each`, or empty. */
  readonly minimum: string;
  /** The newest bid of each buyer, by buyer number, as typed text. */
  readonly bids: Readonly<Record<number, { readonly bidId: number; readonly price: string }>>;
}

/** A lot whose best bid its seller has to accept or keep. */
interface WaitingLot extends Pick<WrittenLot, 'lotNo' | 'sellerNo' | 'goodsName' | 'minimum'> {
  readonly price: string;
  readonly buyerNo: number;
}

export interface WrittenView {
  readonly line: number;
  readonly saleId: number;
  readonly stage: SaleRow['stage'];
  readonly buyers: readonly BlockBuyer[];
  readonly lots: readonly WrittenLot[];
  readonly bids: number;
  readonly waiting: readonly WaitingLot[];
  readonly noBid: readonly string[];
  readonly onHold: readonly string[];
  /** True once the bids were closed. */
  readonly awarded: boolean;
  /** ISO 8601, UTC; null where nobody has said when. */
  readonly closesAt: string | null;
  readonly answerBy: string | null;
  /** When the bids were closed; null before. */
  readonly closedAt: string | null;
  /** The three as people read them; empty where there is none. */
  readonly words: { readonly closesAt: string; readonly answerBy: string; readonly closedAt: string };
  /** Of the association: times are typed by its clock. */
  readonly timeZone: string;
  readonly called: readonly CalledLot[];
}

export function writtenView(book: Book, sale: SaleRow): WrittenView {
  const bids = writtenBids(book, sale.id);
  const open = openLots(book, sale).flatMap((lot) => openLot(book, lot));
  const decided = decideAwards({ stage: 'selling', bidding: 'sealed', open, bids });
  const awards = decided.ok ? decided.value.map(({ award }, at) => ({ award, lot: open[at] })) : [];
  const called = calledLots(book, sale.id, EVERY_LOT);
  const numbers = (kind: string) => awards.flatMap(({ award, lot }) => (award.kind === kind && lot ? [lot.lotNo] : []));
  const { bidsCloseAt: closesAt, sellersAnswerBy: answerBy, bidsClosedAt: closedAt } = sale;
  const timeZone = timeZoneOf(book);
  const say = (at: string | null) => (at === null ? '' : momentInWords(at, timeZone));
  return {
    ...{ line: newestLine(book), saleId: sale.id, stage: sale.stage, bids: bids.length, called },
    buyers: buyersOf(book, sale.id),
    lots: open.map((lot) => writtenLot(lot, bids)),
    waiting: awards.flatMap(({ award, lot }) => (lot ? waitingLot(award, lot) : [])),
    ...{ noBid: numbers('no_bid'), onHold: numbers('on_hold') },
    awarded: sale.bidsClosedAt !== null || called.length > 0,
    ...{ closesAt, answerBy, closedAt, timeZone },
    words: { closesAt: say(closesAt), answerBy: say(answerBy), closedAt: say(closedAt) },
  };
}

function openLot(book: Book, lot: OpenLot) {
  const row = lotById(book, lot.lotId);
  if (!row) return [];
  const { minimumCents } = row;
  const minimum = minimumCents === null ? '' : priceFor(minimumCents, row.by).words;
  const quantity = quantityFor(row).words;
  return [{ ...lot, minimumCents, minimum, quantity, onHold: holdsOfLotId(book, row).length > 0 }];
}

type Open = ReturnType<typeof openLot>[number];

function writtenLot(lot: Open, bids: readonly WrittenBid[]): WrittenLot {
  const own = bids.filter((bid) => bid.lotId === lot.lotId);
  const byBuyer = own.map(({ buyerNo, bidId, priceCents }) => [buyerNo, { bidId, price: showMoney(priceCents) }]);
  const shown = pick(lot, ['lotNo', 'sellerNo', 'goodsName', 'quantity', 'minimum']);
  return { ...shown, bids: Object.fromEntries(byBuyer) };
}

function waitingLot(award: Award | { readonly kind: 'on_hold' }, lot: Open): WaitingLot[] {
  if (award.kind !== 'below_minimum') return [];
  const shown = pick(lot, ['lotNo', 'sellerNo', 'goodsName', 'minimum']);
  return [{ ...shown, price: showMoney(award.priceCents), buyerNo: award.buyerNo }];
}

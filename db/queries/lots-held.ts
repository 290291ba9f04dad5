/** Which lots of a sale are on hold, kept lot by lot: most lots of a sale never are, and an entry touches one. */
import { compareLotNo, type LotNo } from '#lib/lot-number.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { lotById, type SaleRow } from './find.ts';
import { type InPieces, wholeOf } from './kept-pieces.ts';
import { newestLotId } from './newest-rows.ts';
import { standingOutcome } from './outcome.ts';
import type { Range } from './scope.ts';
import { holdsOfLotId } from './tags.ts';

export interface HeldLot {
  readonly lotId: number;
  readonly lotNo: LotNo;
}

interface State {
  readonly held: Map<number, LotNo>;
  /** The lot's row id up to which was read. */
  upTo: number;
  /** Lots that have to be looked at again. */
  readonly due: Set<number>;
}

/** By lot number. */
export function lotsHeld(book: Book, sale: SaleRow): HeldLot[] {
  const { held } = wholeOf(book, heldInPieces(book, sale));
  return [...held].map(([lotId, lotNo]) => ({ lotId, lotNo })).sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
}

/** How many there are. */
export function countHeld(book: Book, sale: SaleRow): number {
  return wholeOf(book, heldInPieces(book, sale)).held.size;
}

/** So many are looked at one by one at a time: some twenty milliseconds. */
const LOTS_A_PIECE = 1000;
/** Where more was touched, to begin again in pieces is less work at a time. */
const MOST = 4000;

export function heldInPieces(book: Book, { id: saleId, region }: SaleRow): InPieces<State> {
  const look = ({ held }: State, lotId: number) => {
    const lot = lotById(book, lotId);
    const holds = lot?.saleId === saleId && !standingOutcome(book, lotId) && holdsOfLotId(book, lot).length > 0;
    if (lot && holds) held.set(lotId, lotNoOf(lot));
    else held.delete(lotId);
  };
  return {
    name: `lots on hold of ${saleId}`,
    // A tag has to be of the sale's State where the lot says no other.
    key: region,
    begin: () => ({ held: new Map(), upTo: 0, due: new Set() }),
    renew({ due }, { lot, called, kinds }) {
      for (const lotId of [...lot, ...called]) due.add(lotId);
      return kinds.size === 0 && due.size <= MOST;
    },
    next(state) {
      const again = [...state.due].slice(0, LOTS_A_PIECE);
      for (const lotId of again) {
        look(state, lotId);
        state.due.delete(lotId);
      }
      if (again.length > 0) return true;
      const newest = newestLotId(book);
      if (state.upTo >= newest) return false;
      const to = Math.min(state.upTo + LOTS_A_PIECE, newest);
      for (const lotId of taggedBetween(book, { saleId, from: state.upTo + 1, to })) look(state, lotId);
      state.upTo = to;
      return true;
    },
  };
}

// A sale has its own goods, so that these name the sale as well.
const TAGGED = `
  SELECT lot.id FROM goods CROSS JOIN lot ON lot.goods_id = goods.id
  WHERE goods.sale_id = :saleId AND goods.export_tag AND lot.id BETWEEN :from AND :to`;

function taggedBetween(book: Book, named: Range & { readonly saleId: number }): number[] {
  const find = book.prepared('tagged lots between', () => book.sqlite.prepare<[object], number>(TAGGED).pluck());
  return find.all(named);
}

/**
 * What is still to be called of a sale, and what the lots that were called brought: for the Block, the Board and
 * everybody who asks how far it has come. Read in pieces and kept; after an entry no more is read than it touched.
 */
import type { Book } from '../open.ts';
import { CalledSums } from './called-sums.ts';
import type { SaleRow } from './find.ts';
import { type InPieces, wholeOf } from './kept-pieces.ts';
import { lotsReopened, openLotsBetween, openOfLot } from './lots-of-the-floor.ts';
import { newestLotId, newestOutcomeId } from './newest-rows.ts';
import { type OpenLot, orderOf } from './open-lot.ts';
import { Waiting } from './waiting.ts';

export interface Floor {
  /** In running order. */
  readonly open: readonly OpenLot[];
  readonly called: Pick<CalledSums, 'many' | 'totalCents' | 'firstId'>;
}

/** As it is now. Nobody may change it. */
export function floorOf(book: Book, sale: SaleRow): Floor {
  const { open, called } = wholeOf(book, floorInPieces(book, sale));
  return { open: open.inOrder(orderOf(sale)), called };
}

interface State {
  readonly open: Waiting;
  readonly called: CalledSums;
  /** The row ids up to which lots and outcomes were read. */
  lotsTo: number;
  outcomesTo: number;
  /** Lots that have to be read again. */
  readonly due: Set<number>;
}

/** So many rows are read at a time: some ten milliseconds. */
const A_PIECE = 10_000;
/** Where more was touched, to begin again is less work. */
const MOST = 1000;

export function floorInPieces(book: Book, { id: saleId }: SaleRow): InPieces<State> {
  return {
    name: `floor of ${saleId}`,
    key: '',
    begin: () => ({
      ...{ open: new Waiting(), called: new CalledSums(book, saleId), lotsTo: 0, outcomesTo: 0 },
      // They have outcomes, and are to be called all the same.
      due: new Set(lotsReopened(book)),
    }),
    renew({ due, called, outcomesTo }, { lot, called: calledNow, kinds }) {
      // The goods of a lot are shown by their name, and may be what the order goes by.
      if (kinds.size > 0 || lot.size + calledNow.size > MOST) return false;
      for (const lotId of calledNow) {
        // What it brought before cannot be taken off where the lot itself is another one now.
        if (lot.has(lotId) && called.counts(lotId, outcomesTo)) return false;
        called.takeOff(lotId, outcomesTo);
        due.add(lotId);
      }
      for (const lotId of lot) due.add(lotId);
      return true;
    },
    next: (state) => readDue(book, saleId, state) || readLots(book, saleId, state) || readOutcomes(book, state),
  };
}

function readDue(book: Book, saleId: number, { open, due, lotsTo }: State): boolean {
  if (due.size === 0) return false;
  open.remove(due);
  for (const lotId of due) {
    const found = openOfLot(book, { saleId, lotId });
    // A lot beyond that was never called comes with its piece.
    if (found && (lotId <= lotsTo || found.wasCalled)) open.add(found.lot);
  }
  due.clear();
  return true;
}

function readLots(book: Book, saleId: number, state: State): boolean {
  const newest = newestLotId(book);
  if (state.lotsTo >= newest) return false;
  const to = Math.min(state.lotsTo + A_PIECE, newest);
  for (const lot of openLotsBetween(book, saleId, { from: state.lotsTo + 1, to })) state.open.add(lot);
  state.lotsTo = to;
  return true;
}

function readOutcomes(book: Book, state: State): boolean {
  const newest = newestOutcomeId(book);
  if (state.outcomesTo >= newest) return false;
  const to = Math.min(state.outcomesTo + A_PIECE, newest);
  state.called.addBetween(state.outcomesTo, to);
  state.outcomesTo = to;
  return true;
}

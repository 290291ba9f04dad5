/** Whether lots may leave the hall with their buyer: also after the closing, because it moves no money. */
import type { LotNo } from '#lib/lot/number.ts';
import { type Cents, showMoney, subtractCents } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Stage } from '#lib/sale/facts.ts';
import { decideAfterHammer } from '#lib/sale/stage.ts';
import { listed } from '#lib/settlement/spelling.ts';

export interface TickedLot {
  readonly lotNo: LotNo;
  readonly buyerNo: number | null;
  readonly handed: boolean;
  /** Null for a lot by weight whose pieces were not counted: it counts as one. */
  readonly count: number | null;
}

export interface HandoverContext {
  readonly stage: Stage;
  readonly buyerNo: number;
  readonly lots: readonly TickedLot[];
  /** The pieces that were counted at the counter, all lots together. */
  readonly pieces: number;
  readonly unpaidAllowed: boolean;
  /** Paid or set off, less fees: fur is not given away for a debt that was given up. */
  readonly paidCents: Cents;
  readonly givenUpCents: Cents;
  /** What the ticked lots come to with those that the buyer has already: with premium and tax, by sum 8. */
  readonly neededCents: Cents;
}

export function decideHandover(context: HandoverContext): Result<null> {
  const { stage, buyerNo, lots, pieces } = context;
  const allowed = stage === 'closed' ? accept(null) : decideAfterHammer(stage, 'no lot is handed over');
  if (!allowed.ok) return allowed;
  if (lots.length === 0) return refuse('missing', 'Tick or scan the lots that are handed over.', 'lots');
  const twice = lots.filter(({ lotNo }, at) => lots.findIndex((one) => one.lotNo === lotNo) < at);
  if (twice.length > 0) return refuse('malformed', `${named(twice)} twice in the list: tick each lot once.`, 'lots');
  const others = lots.filter((lot) => lot.buyerNo !== buyerNo);
  if (others.length > 0) {
    return refuse('conflict', `${named(others)} not sold to buyer ${buyerNo}: leave it on the table.`, 'lots');
  }
  const gone = lots.filter(({ handed }) => handed);
  if (gone.length > 0) return refuse('already', `${named(gone)} already handed over: take it off the list.`, 'lots');
  const ought = piecesOf(lots);
  if (pieces !== ought) {
    const message = `You counted ${pieces}, and the lots ticked have ${ought}: count again, or tick the right lots.`;
    return refuse('conflict', message, 'pieces');
  }
  return decidePaid(context);
}

export function piecesOf(lots: readonly Pick<TickedLot, 'count'>[]): number {
  return lots.reduce((sum, { count }) => sum + (count ?? 1), 0);
}

function decidePaid({ buyerNo, unpaidAllowed, paidCents, givenUpCents, neededCents }: HandoverContext): Result<null> {
  if (unpaidAllowed || paidCents >= neededCents) return accept(null);
  const short = showMoney(subtractCents(neededCents, paidCents));
  if (givenUpCents > 0) {
    const message = `Buyer ${buyerNo} has not paid ${short} for these lots and those taken before, and ${showMoney(givenUpCents)} of the debt was written off. Void the write-off of ${showMoney(givenUpCents)} on the buyer’s page (the treasurer may), then take the money; or hand over fewer lots.`;
    return refuse('not_allowed', message, 'lots');
  }
  // A fee for a returned check is charged to what was paid: then nothing of it is left for lots.
  const paid = paidCents > 0 ? showMoney(paidCents) : 'nothing for lots';
  const message = `Buyer ${buyerNo} has paid ${paid}, and these lots with those taken before come to ${showMoney(neededCents)}: take ${short} first, or hand over fewer lots.`;
  return refuse('not_allowed', message, 'lots');
}

function named(lots: readonly TickedLot[]): string {
  const which = listed(lots.map(({ lotNo }) => lotNo));
  return lots.length === 1 ? `Lot ${which} is` : `Lots ${which} are`;
}

export function decideReturn(lotNo: LotNo, handed: boolean): Result<null> {
  if (handed) return accept(null);
  return refuse('not_allowed', `Lot ${lotNo} was not handed over: it is still on the table.`, 'lotNo');
}

/** Until when written bids are taken, how they may still be changed, and which of them count. */
import { timeInWords } from '#lib/date/date.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Stage } from '#lib/sale/facts.ts';

/** When the written bids of a sale are over. */
export interface BidTimes {
  /** When they close by the clock; null where nobody has said when. */
  readonly closeAt: string | null;
  /** When somebody closed them by hand; null before. */
  readonly closedAt: string | null;
  /** When the lots were awarded; null before. */
  readonly awardedAt: string | null;
}

interface AtTimes extends BidTimes {
  /** ISO 8601, UTC: the moment that is asked about. */
  readonly at: string;
  readonly timeZone: string;
}

/** From when on a bid comes too late: closed by hand or, where nobody did that, at the time that was set. */
export function closingOf({ closeAt, closedAt }: Omit<BidTimes, 'awardedAt'>): string | null {
  return closedAt ?? closeAt;
}

/** Whether a written bid that was handed in then counts no more. One at the very time that was set does not. */
export function isLate({ closeAt, closedAt }: Omit<BidTimes, 'awardedAt'>, handedInAt: string): boolean {
  if (closedAt !== null) return Date.parse(handedInAt) > Date.parse(closedAt);
  return closeAt !== null && Date.parse(handedInAt) >= Date.parse(closeAt);
}

/** Whether the bids are over at this moment, by hand or by the clock. */
export function areClosed({ at, closeAt, closedAt, awardedAt }: Omit<AtTimes, 'timeZone'>): boolean {
  return awardedAt !== null || closedAt !== null || (closeAt !== null && Date.parse(at) >= Date.parse(closeAt));
}

interface HandedIn extends AtTimes {
  readonly kind: 'written' | 'left' | 'under';
  /** When the sheet was handed in, where somebody typed it. */
  readonly handedInAt: string | undefined;
}

/**
 * Decides when a bid counts as handed in: now, or the time on its sheet. Once the bids are closed the time has to be
 * said, and a bid from after the closing is kept as late. A left bid has the time on its list where somebody types it, and
 * an under-bid has none.
 */
export function decideHandedIn({ kind, at, handedInAt, timeZone, ...times }: HandedIn): Result<string> {
  if (kind === 'under' || (kind === 'left' && handedInAt === undefined)) return accept(at);
  if (kind === 'written' && times.awardedAt !== null) {
    const since = timeInWords(times.awardedAt, timeZone);
    return refuse('wrong_stage', `The lots were awarded at ${since}: no more bids are taken down.`, 'price');
  }
  if (handedInAt === undefined) {
    if (!areClosed({ at, ...times })) return accept(at);
    const closed = timeInWords(closingOf(times) ?? at, timeZone);
    const message = `The bids closed at ${closed}. Enter when this sheet was handed in: a later one is kept, but is late.`;
    return refuse('missing', message, 'handedInAt');
  }
  if (Date.parse(handedInAt) <= Date.parse(at) + 60_000) return accept(handedInAt);
  return refuse('malformed', 'This time has not come yet: check when the sheet was handed in.', 'handedInAt');
}

/** Decides whether a bid may still be changed: after the closing only with a reason. */
export function decideChange(closed: boolean, reason: string): Result<null> {
  if (!closed || reason.trim() !== '') return accept(null);
  return refuse('missing', 'The bids are closed. Give the reason for the change.', 'reason');
}

/** What is done with a lot by its bids: its seller accepts one, it stays unsold, or all lots are awarded in one act. */
type ByBids = 'accept' | 'pass' | 'award';

const AFTER: Readonly<Record<ByBids, string>> = {
  accept: 'Accept after that',
  pass: 'Record the no-sale after that',
  award: 'Award after that',
};

/** Decides whether a lot may go by its bids: awarding follows the closing, and each answer of a seller the awarding. */
export function decideBidsOver({ at, timeZone, ...times }: AtTimes, act: ByBids): Result<null> {
  if (times.awardedAt !== null) return accept(null);
  const field = act === 'award' ? 'saleId' : 'lotNo';
  if (areClosed({ at, ...times })) {
    if (act === 'award') return accept(null);
    return refuse('wrong_stage', 'The bids are closed, and the lots are not awarded yet. Award them first.', field);
  }
  if (times.closeAt === null) {
    const message = 'The bids are still open, and no closing time is set. Close the bids first, or set a closing time.';
    return refuse('wrong_stage', message, field);
  }
  const closes = timeInWords(times.closeAt, timeZone);
  return refuse('wrong_stage', `Bids close at ${closes}. ${AFTER[act]}, or move the closing time.`, field);
}

/** Decides closing the bids by hand: once, at a sale of written bids that is being sold. */
export function decideClose({
  bidding,
  stage,
  ...times
}: AtTimes & Pick<BidClosingContext, 'bidding'> & { readonly stage: Stage }): Result<null> {
  if (bidding !== 'sealed') return refuse('not_allowed', 'This sale is called: it has no written bids.', 'saleId');
  if (stage !== 'selling') {
    return refuse('wrong_stage', `The sale is in the stage “${stage}”: start it first, then close the bids.`, 'saleId');
  }
  if (!areClosed(times)) return accept(null);
  const closed = timeInWords(closingOf(times) ?? times.at, times.timeZone);
  return refuse('already', `The bids were closed at ${closed} already: award the lots.`, 'saleId');
}

export interface BidClosingContext extends AtTimes {
  readonly bidding: 'floor' | 'sealed';
  readonly closesAt: string | null;
  readonly answerBy: string | null;
  readonly reason: string;
}

/** Decides what a sale says of its closing: it is free until the clock has closed the bids, then it takes a reason. */
export function decideClosing({ bidding, closesAt, answerBy, reason, ...times }: BidClosingContext): Result<null> {
  if (bidding !== 'sealed') {
    return refuse('not_allowed', 'This sale is called: only written bids close at a time.', 'closesAt');
  }
  const done = times.awardedAt ?? times.closedAt;
  if (done !== null) {
    const at = timeInWords(closingOf(times) ?? done, times.timeZone);
    return refuse('wrong_stage', `The bids were closed at ${at}: the time stays as it is.`, 'closesAt');
  }
  if (closesAt !== null && answerBy !== null && Date.parse(answerBy) <= Date.parse(closesAt)) {
    return refuse('malformed', 'Sellers answer after the bids have closed: enter a later time.', 'answerBy');
  }
  return decideChange(areClosed(times), reason);
}

/** A bid as it was taken down, or the taking back of one, in the order of `id`. */
export interface BidRow {
  readonly id: number;
  readonly buyerId: number;
  /** The bid that this row takes back; null for a bid. */
  readonly retractsId: number | null;
  /** True of a taking back that only moves the bid to the lot it was meant for. */
  readonly moved?: boolean;
}

export interface RetractContext {
  readonly lotNo: string;
  readonly standing: string | null;
  readonly rows: readonly BidRow[];
  readonly bidId: number;
}

/** A bid is free until the hammer falls, and taking it back brings no earlier bid back to life (UCC § 2-328(3)). */
export function decideRetract({ lotNo, standing, rows, bidId }: RetractContext): Result<null> {
  if (rows.find(({ id }) => id === bidId)?.retractsId !== null) {
    return refuse('unknown', `This is no bid on lot ${lotNo}: choose the bid from the list.`, 'bidId');
  }
  if (rows.some(({ retractsId }) => retractsId === bidId)) {
    return refuse('already', `This bid on lot ${lotNo} was already taken back.`, 'bidId');
  }
  if (standing === null) return accept(null);
  const message = `Lot ${lotNo} is already ${standing}: a bid can be taken back only before the hammer falls.`;
  return refuse('already', message, 'bidId');
}

/** The bids that still count: not one that was taken back, and none that its bidder made before that one. */
export function standingBids<T extends BidRow>(rows: readonly T[]): T[] {
  const gone = new Map<number, number>();
  // A bid typed on the wrong lot was never made there: it takes no earlier one with it.
  const away = new Set(
    rows.flatMap(({ retractsId, moved = false }) => (moved && retractsId !== null ? [retractsId] : [])),
  );
  for (const { buyerId, retractsId, moved = false } of rows) {
    if (retractsId !== null && !moved) gone.set(buyerId, Math.max(gone.get(buyerId) ?? 0, retractsId));
  }
  return rows.filter(
    ({ id, buyerId, retractsId }) => retractsId === null && !away.has(id) && id > (gone.get(buyerId) ?? 0),
  );
}

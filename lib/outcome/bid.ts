/** Until when written bids are taken: no longer than the sale said, and not once its lots were awarded. */
import { timeInWords } from '#lib/date/date.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

export interface BidContext {
  readonly kind: 'written' | 'left' | 'under';
  readonly at: string;
  /** When the written bids close; null where nobody has said when. */
  readonly closeAt: string | null;
  readonly closedAt: string | null;
  readonly timeZone: string;
}

/** Decides whether a bid comes in time. A left bid is bid at the Block and an under-bid is only noted: both go on. */
export function decideBidInTime({ kind, at, closeAt, closedAt, timeZone }: BidContext): Result<null> {
  if (kind !== 'written') return accept(null);
  if (closedAt !== null) {
    const since = timeInWords(closedAt, timeZone);
    return refuse('wrong_stage', `The bids were closed at ${since}: no more bids are taken.`, 'price');
  }
  if (closeAt === null || Date.parse(at) < Date.parse(closeAt)) return accept(null);
  const closed = timeInWords(closeAt, timeZone);
  return refuse('wrong_stage', `The bids closed at ${closed}: this one comes too late.`, 'price');
}

/** What is done with a lot by its bids: its seller accepts one, it stays unsold, or all lots are awarded in one act. */
export type ByBids = 'accept' | 'pass' | 'award';

const AFTER: Readonly<Record<ByBids, string>> = {
  accept: 'Accept after that',
  pass: 'Record the no-sale after that',
  award: 'Close them after that',
};

/** Decides whether the bids are over. While a higher one may still come in, no lot goes by the bids that are there. */
export function decideBidsOver(
  { at, closeAt, closedAt, timeZone }: Omit<BidContext, 'kind'>,
  act: ByBids,
): Result<null> {
  if (closedAt !== null) return accept(null);
  if (closeAt === null) {
    // Without a time that was said, the bids are closed by the act that awards the lots.
    if (act === 'award') return accept(null);
    const message = 'The bids are still open, and no closing time is set. Close the bids first, or set a closing time.';
    return refuse('wrong_stage', message, 'lotNo');
  }
  if (Date.parse(at) >= Date.parse(closeAt)) return accept(null);
  const message = `Bids close at ${timeInWords(closeAt, timeZone)}. ${AFTER[act]}, or move the closing time.`;
  return refuse('wrong_stage', message, act === 'award' ? 'saleId' : 'lotNo');
}

export interface BidClosingContext {
  readonly bidding: 'floor' | 'sealed';
  readonly closedAt: string | null;
  readonly closesAt: string | null;
  readonly answerBy: string | null;
  readonly timeZone: string;
}

/** Decides what a sale says of its closing: it can be changed until the lots were awarded. */
export function decideClosing({ bidding, closedAt, closesAt, answerBy, timeZone }: BidClosingContext): Result<null> {
  if (bidding !== 'sealed') {
    return refuse('not_allowed', 'This sale is called: only written bids close at a time.', 'closesAt');
  }
  if (closedAt !== null) {
    const at = timeInWords(closedAt, timeZone);
    return refuse('wrong_stage', `The bids were closed at ${at}: the time stays as it is.`, 'closesAt');
  }
  if (closesAt !== null && answerBy !== null && Date.parse(answerBy) <= Date.parse(closesAt)) {
    return refuse('malformed', 'Sellers answer after the bids have closed: enter a later time.', 'answerBy');
  }
  return accept(null);
}

/** A bid as it was taken down, or the taking back of one, in the order of `id`. */
export interface BidRow {
  readonly id: number;
  readonly buyerId: number;
  /** The bid that this row takes back; null for a bid. */
  readonly retractsId: number | null;
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
  for (const { buyerId, retractsId } of rows) {
    if (retractsId !== null) gone.set(buyerId, Math.max(gone.get(buyerId) ?? 0, retractsId));
  }
  return rows.filter(({ id, buyerId, retractsId }) => retractsId === null && id > (gone.get(buyerId) ?? 0));
}

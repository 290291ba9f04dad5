/** Until when written bids are taken: no longer than the sale said, and not once its lots were awarded. */
import { timeInWords } from '#lib/local-day.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

export interface BidScene {
  readonly kind: 'written' | 'left' | 'under';
  /** ISO 8601, UTC, of the bid. */
  readonly at: string;
  /** When the written bids close; null where nobody has said when. */
  readonly closeAt: string | null;
  /** When they were closed and awarded; null before. */
  readonly closedAt: string | null;
  /** The time zone in which a refusal says a time. */
  readonly timeZone: string;
}

/** Decides whether a bid comes in time. A left bid is bid at the Block and an under-bid is only noted: both go on. */
export function decideBidInTime({ kind, at, closeAt, closedAt, timeZone }: BidScene): Result<null> {
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
export function decideBidsOver({ at, closeAt, closedAt, timeZone }: Omit<BidScene, 'kind'>, act: ByBids): Result<null> {
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

export interface ClosingScene {
  readonly bidding: 'floor' | 'sealed';
  readonly closedAt: string | null;
  readonly closesAt: string | null;
  readonly answerBy: string | null;
  readonly timeZone: string;
}

/** Decides what a sale says of its closing: it can be changed until the lots were awarded. */
export function decideClosing({ bidding, closedAt, closesAt, answerBy, timeZone }: ClosingScene): Result<null> {
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

/** Taking a bid back: free until the hammer falls, and it brings no earlier bid back to life (UCC § 2-328(3)). */
import { accept, type Result, refuse } from '#lib/result.ts';

/** A bid as it was taken down, or the taking back of one, in the order of `id`. */
export interface BidRow {
  readonly id: number;
  readonly buyerId: number;
  /** The bid that this row takes back; null for a bid. */
  readonly retractsId: number | null;
}

export interface RetractScene {
  readonly lotNo: string;
  /** The outcome that stands for the lot, as words, or null. */
  readonly standing: string | null;
  /** All rows of the lot. */
  readonly rows: readonly BidRow[];
  readonly bidId: number;
}

export function decideRetract({ lotNo, standing, rows, bidId }: RetractScene): Result<null> {
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

/**
 * Taking a lot out of the sale before it is called. With reserve it may be withdrawn until the hammer falls; without
 * reserve it may not once bids are called for (UCC § 2-328(3)), and written or left bids are such.
 */
import { accept, type Result, refuse } from '#lib/result.ts';

export interface WithdrawScene {
  readonly lotNo: string;
  readonly withoutReserve: boolean;
  readonly bids: number;
}

export function decideWithdraw({ lotNo, withoutReserve, bids }: WithdrawScene): Result<null> {
  if (!withoutReserve || bids === 0) return accept(null);
  const message = `Lot ${lotNo} is sold without reserve and has bids: it can no longer be withdrawn.`;
  return refuse('not_allowed', message, 'lotId');
}

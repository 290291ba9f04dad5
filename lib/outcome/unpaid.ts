/**
 * A sold lot whose buyer never pays. The seller is charged nothing for it (common practice, no source), the buyer's bill
 * falls away by it, and somebody says what becomes of the fur.
 */
import type { LotNo } from '#lib/lot/number.ts';
import { type Cents, ZERO } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Fate, Stage } from '#lib/sale/facts.ts';
import { decideAfterHammer } from '#lib/sale/stage.ts';

export const FATES = ['seller', 'association', 'again'] as const satisfies readonly Fate[];

interface UnpaidLot {
  readonly lotNo: LotNo;
  /** Whether it is sold to this buyer as it stands. */
  readonly theirs: boolean;
  /** True for a lot that has left the hall. */
  readonly handed: boolean;
}

export interface UnpaidContext {
  readonly stage: Stage;
  readonly buyerNo: number;
  /** What the buyer owes for everything: nobody who owes nothing has left a lot unpaid. */
  readonly owingCents: Cents;
  readonly lots: readonly UnpaidLot[];
}

export function decideUnpaid({ stage, buyerNo, owingCents, lots }: UnpaidContext, fate: Fate): Result<null> {
  const allowed = decideAfterHammer(stage, 'no lot is put down as not paid for');
  if (!allowed.ok) return allowed;
  if (fate === 'again' && stage !== 'selling') {
    const next = 'Take the sale back to selling first, or say that the fur goes back to the seller.';
    return refuse('wrong_stage', `A lot is offered again only while the sale runs. ${next}`, 'fate');
  }
  if (lots.length === 0) return refuse('missing', 'Say which lot was not paid for.', 'lots');
  for (const { lotNo, theirs, handed } of lots) {
    if (!theirs) {
      const message = `Lot ${lotNo} is not sold to buyer ${buyerNo}: look at the account again.`;
      return refuse('conflict', message, 'lots');
    }
    if (handed) {
      const message = `Lot ${lotNo} has left the hall with its buyer, so it stays sold. Leave it as it is, and ask the treasurer about the money.`;
      return refuse('not_allowed', message, 'lots');
    }
  }
  if (owingCents > ZERO) return accept(null);
  const next = 'If a lot was never theirs, put it right at the Block.';
  return refuse('not_allowed', `Buyer ${buyerNo} owes nothing, so every lot is paid for. ${next}`, 'buyerNo');
}

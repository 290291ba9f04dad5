/** Voiding a payment: a further row takes it back, so that both stay to be read; it can happen once. */
import type { Stage } from '#lib/facts.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

export interface VoidScene {
  readonly stage: Stage;
  /** The row is itself the voiding of another. */
  readonly voids: boolean;
  /** Another row has voided it. */
  readonly voided: boolean;
}

export function decideVoid({ stage, voids, voided }: VoidScene): Result<null> {
  if (stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'paymentId');
  if (voids) {
    const message = 'This row takes a payment back and cannot be voided: record the payment anew.';
    return refuse('not_allowed', message, 'paymentId');
  }
  if (voided) return refuse('already', 'This payment was already voided.', 'paymentId');
  return accept(null);
}

/** Which of last year's buyers get their number again. */
import { accept, type Result, refuse } from '#lib/result.ts';

export interface EarlierBuyer {
  readonly buyerNo: number;
  readonly personId: number;
}

export interface Carried<T> {
  /** Those who get their number again. */
  readonly registered: readonly T[];
  /** Those whose number somebody else has by now. */
  readonly numberTaken: readonly T[];
}

/** Everybody who has no number here yet gets the one they had, unless somebody else has it. */
export function decideCarry<T extends EarlierBuyer>(
  earlier: readonly T[],
  here: readonly EarlierBuyer[],
): Result<Carried<T>> {
  const people = new Set(here.map(({ personId }) => personId));
  const numbers = new Set(here.map(({ buyerNo }) => buyerNo));
  // Somebody who held two numbers gets both again.
  const missing = earlier.filter(({ personId }) => !people.has(personId));
  const registered = missing.filter(({ buyerNo }) => !numbers.has(buyerNo));
  if (registered.length > 0) {
    return accept({ registered, numberTaken: missing.filter(({ buyerNo }) => numbers.has(buyerNo)) });
  }
  if (earlier.length === 0) return refuse('unknown', 'No earlier sale has buyers: register them one by one.', 'saleId');
  return refuse('already', 'Every buyer of that sale has a number here, or somebody else has theirs.', 'saleId');
}

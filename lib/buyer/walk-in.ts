/**
 * Walk-in buyers: somebody who buys a lot without a number and pays at once. Nobody asks their name: all of them are the
 * one person of this reference, and each has a buyer number of their own.
 */
import type { Licence } from '#lib/person/fields.ts';
import { licenceInWords } from '#lib/person/person.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

export const WALK_IN_REF = 'WALK-IN';
export const WALK_IN_NAME = 'Walk-in buyer';

interface WalkInContext {
  /** Whether the rules of the table ask for a license. */
  readonly required: boolean;
  readonly heldOn: string;
  /** Who has the reference already, or null where nobody has. */
  readonly known: string | null;
}

/** A walk-in has nothing on record: where the table asks for a license, they show one that is good on the day. */
export function decideWalkIn({ required, heldOn, known }: WalkInContext, licence: Licence): Result<null> {
  if (known !== null && known !== WALK_IN_NAME) {
    const message = `The reference ${WALK_IN_REF} is ${known}’s in this book: register the buyer by name.`;
    return refuse('conflict', message);
  }
  if (!required) return accept(null);
  const { state, words } = licenceInWords(licence, heldOn);
  if (state === 'missing') {
    const message = 'This sale asks for a license, and a walk-in has none on record: enter the one they show.';
    return refuse('missing', message, 'licenceNo');
  }
  if (state === 'expired') {
    return refuse('not_allowed', `${words}: enter one that is good on the day of the sale.`, 'licenceExpires');
  }
  return accept(null);
}

/** Nobody's particulars are kept under the shared reference: the next walk-in would have them too. */
export function decideNotWalkIn(ref: string, field: string): Result<null> {
  if (ref !== WALK_IN_REF) return accept(null);
  const message = 'All walk-in buyers share this entry: enrol somebody under their own name instead.';
  return refuse('not_allowed', message, field);
}

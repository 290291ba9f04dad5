/** How a person stands with the association and with the agency on the day of the sale, as words for the check-in table. */
import { shortDate } from '#lib/date/date.ts';
import { fieldNames } from '#lib/field/fields.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Membership, Stage } from '#lib/sale/facts.ts';
import { type Licence, type PersonFacts, REACH_FIELDS, REMOVED_FIELDS, type RemovedField } from './fields.ts';

export type MembershipState = 'paid' | 'lapsed' | 'guest';
export type LicenceState = 'good' | 'expired' | 'undated' | 'missing';

/** A state that a screen marks, and the sentence that says it. */
export interface Standing<S extends string> {
  readonly state: S;
  readonly words: string;
}

/** Dues paid to the day of the sale or beyond make a member; dues that ran out, or none, make a guest of this sale. */
export function membershipInWords(
  { memberNo, memberUntil }: Pick<PersonFacts, 'memberNo' | 'memberUntil'>,
  heldOn: string,
): Standing<MembershipState> {
  const number = memberNo === '' ? '' : ` ${memberNo}`;
  if (memberUntil === null) {
    return { state: 'guest', words: memberNo === '' ? 'Guest' : `Guest: member${number} without dues on record` };
  }
  if (memberUntil >= heldOn)
    return { state: 'paid', words: `Member${number}, dues paid until ${shortDate(memberUntil)}` };
  return { state: 'lapsed', words: `Lapsed: dues of member${number} ran out on ${shortDate(memberUntil)}` };
}

/** Whether the licence shown is good on the day; that the agency has the last word is said beside it. */
export function licenceInWords(facts: Licence, heldOn: string): Standing<LicenceState> {
  const { licenceNo, licenceRegion, licenceExpires } = facts;
  if (licenceNo === '') return { state: 'missing', words: 'No licence on record' };
  const which = licenceRegion === '' ? `Licence ${licenceNo}` : `Licence ${licenceNo} of ${licenceRegion}`;
  if (licenceExpires === null) return { state: 'undated', words: `${which}, no expiry on record` };
  if (licenceExpires < heldOn) return { state: 'expired', words: `${which} expired on ${shortDate(licenceExpires)}` };
  return { state: 'good', words: `${which}, good until ${shortDate(licenceExpires)}` };
}

export interface LicenceContext {
  /** The sale's setting: true where an expired or a missing licence is refused, and not only shown. */
  readonly required: boolean;
  readonly heldOn: string;
  readonly people: readonly (Licence & { readonly name: string })[];
}

/**
 * Refuses the first of them whose licence is missing or ran out before the day of the sale. One without an expiry on
 * record passes: what it says is the agency's to judge.
 */
export function decideLicences({ required, heldOn, people }: LicenceContext): Result<null> {
  if (!required) return accept(null);
  for (const { name, ...facts } of people) {
    const { state, words } = licenceInWords(facts, heldOn);
    if (state !== 'missing' && state !== 'expired') continue;
    const why =
      state === 'missing'
        ? `${name} has no licence on record, and nobody sells here without one: enter it`
        : `${words}, and nobody sells here with an expired licence: enter the new one of ${name}`;
    return refuse('not_allowed', `${why}, or send them to the officer’s table.`, 'partners');
  }
  return accept(null);
}

/**
 * The fields to remove. A closed sale is at zero, so that no money asks for the data any more; a settlement sheet is
 * a paper of account and keeps the address and the payee that were printed on it, for as long as the book is kept.
 */
export function decideForget(sales: readonly { name: string; stage: Stage }[], sheets: number) {
  const open = sales.find(({ stage }) => stage !== 'closed');
  if (open) {
    return refuse('wrong_stage', `${open.name} is not closed: until then this person must be reached.`, 'personId');
  }
  return accept<readonly RemovedField[]>(fieldNames(sheets > 0 ? REACH_FIELDS : REMOVED_FIELDS));
}

export interface ProposedSeller {
  readonly sellerNo: number;
  /** Who has the number already; null where it is free. */
  readonly takenBy: string | null;
  readonly membership: Membership;
  readonly guestsMaySell: boolean;
  /** Of those who would sell as guests. */
  readonly names: readonly string[];
}

export function decideSeller(proposed: ProposedSeller): Result<null> {
  if (proposed.takenBy !== null) {
    const message = `Seller number ${proposed.sellerNo} is that of ${proposed.takenBy}: take the next free one.`;
    return refuse('taken', message, 'sellerNo');
  }
  if (proposed.membership === 'guest' && !proposed.guestsMaySell) {
    const who = proposed.names.join(' and ');
    const message = `Only members may sell at this sale, and ${who} would sell as a guest: take dues first, or change the terms.`;
    return refuse('not_allowed', message, 'partners');
  }
  return accept(null);
}

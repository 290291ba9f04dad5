/** How a person stands with the association and with the agency on the day of the sale, as words for the check-in table. */
import type { Licence, PersonFacts } from '#lib/person/fields.ts';

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
  if (memberUntil >= heldOn) return { state: 'paid', words: `Member${number}, dues paid until ${memberUntil}` };
  return { state: 'lapsed', words: `Lapsed: dues of member${number} ran out on ${memberUntil}; sells as a guest` };
}

/** Whether the licence shown is good on the day; that the agency has the last word is said beside it. */
export function licenceInWords(facts: Licence, heldOn: string): Standing<LicenceState> {
  const { licenceNo, licenceRegion, licenceExpires } = facts;
  if (licenceNo === '') return { state: 'missing', words: 'No licence on record' };
  const which = licenceRegion === '' ? `Licence ${licenceNo}` : `Licence ${licenceNo} of ${licenceRegion}`;
  if (licenceExpires === null) return { state: 'undated', words: `${which}, no expiry on record` };
  if (licenceExpires < heldOn) return { state: 'expired', words: `${which} expired on ${licenceExpires}` };
  return { state: 'good', words: `${which}, good until ${licenceExpires}` };
}

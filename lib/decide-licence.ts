/** Whether people may sell with the licences they showed, where the sale asks for good ones. */
import type { Licence } from '#lib/person/fields.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { licenceInWords } from '#lib/standing.ts';

export interface LicenceScene {
  /** The sale's setting: true where an expired or a missing licence is refused, and not only shown. */
  readonly required: boolean;
  readonly heldOn: string;
  readonly people: readonly (Licence & { readonly name: string })[];
}

/**
 * Refuses the first of them whose licence is missing or ran out before the day of the sale. One without an expiry on
 * record passes: what it says is the agency's to judge.
 */
export function decideLicences({ required, heldOn, people }: LicenceScene): Result<null> {
  if (!required) return accept(null);
  for (const { name, ...facts } of people) {
    const { state, words } = licenceInWords(facts, heldOn);
    if (state === 'missing') {
      const message = `${name} has no licence on record, and nobody sells here without one: enter it, or send them to the officer’s table.`;
      return refuse('not_allowed', message, 'partners');
    }
    if (state === 'expired') {
      const message = `${words}, and nobody sells here with an expired licence: enter the new one of ${name}, or send them to the officer’s table.`;
      return refuse('not_allowed', message, 'partners');
    }
  }
  return accept(null);
}

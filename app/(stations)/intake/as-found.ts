/** Somebody who was enrolled or put right this moment, as the box would find them. */
import type { FoundPerson } from '#db/queries/people.ts';
import type { PersonAsTyped } from '#lib/person/fields.ts';
import { licenceInWords, membershipInWords } from '#lib/standing.ts';

interface Typed {
  readonly personId: number;
  readonly typed: PersonAsTyped;
  readonly heldOn: string;
}

export function asFound({ personId, typed, heldOn }: Typed): FoundPerson {
  const { name, city, region, phone } = typed;
  const facts = { ...typed, memberUntil: typed.memberUntil || null, licenceExpires: typed.licenceExpires || null };
  return {
    ...{ personId, name, phone, typed, sellerNos: [] },
    place: [city, region].filter(Boolean).join(', '),
    membership: membershipInWords(facts, heldOn),
    licence: licenceInWords(facts, heldOn),
  };
}

/**
 * Everything that is known of a person, once: the input of the commands, the two tables that store it, `people.csv` and
 * the forms follow from this list, in the order of the file.
 */
import { type AnyField, type Facts, namesOf, type Typed } from '#lib/field/fields.ts';
import * as k from '#lib/field/kinds.ts';

interface PersonFieldRules extends AnyField {
  /** Its place in the form; null where nobody is asked. */
  readonly asked: number | null;
}

const said = { kind: k.words, empty: '', column: k.words } as const;
const day = { kind: k.orNull(k.date), empty: null, column: k.orNull(k.date) } as const;

/** Where somebody is reached; the association has these too. */
export const ADDRESS_FIELDS = {
  street: { ...said, label: 'Street', asked: 3 },
  city: { ...said, label: 'Town', asked: 4 },
  region: { ...said, label: 'State', asked: 5 },
  postcode: { ...said, label: 'Postcode', asked: 6 },
  phone: { ...said, label: 'Phone', asked: 2 },
  email: { ...said, label: 'Mail', asked: null },
} as const satisfies Readonly<Record<string, PersonFieldRules>>;

/** What a licence says: a person's own, or a fur buyer's. */
export const LICENCE_FIELDS = {
  licenceNo: { ...said, label: 'Licence number', asked: 7 },
  licenceRegion: {
    ...{ kind: k.regionOrEmpty, empty: '', column: k.regionOrEmpty, asked: 8 },
    label: 'Licence of',
    hint: 'Country and State, such as US-WY',
  },
  licenceExpires: { ...day, label: 'Licence expires', hint: 'Year-month-day, such as 2026-12-31', asked: 9 },
} as const satisfies Readonly<Record<string, PersonFieldRules>>;

export const PERSON_FIELDS = {
  name: { kind: k.name, column: k.name, label: 'Full name', asked: 1 },
  ...ADDRESS_FIELDS,
  memberNo: { ...said, label: 'Member number', hint: 'Empty for a guest', asked: 10 },
  memberUntil: { ...day, label: 'Dues paid until', hint: 'Year-month-day; empty for a guest', asked: 11 },
  ...LICENCE_FIELDS,
} as const satisfies Readonly<Record<string, PersonFieldRules>>;

export type PersonField = keyof typeof PERSON_FIELDS;
export type PersonFacts = Facts<typeof PERSON_FIELDS>;
export type PersonAsTyped = Typed<typeof PERSON_FIELDS>;

/** In the order of the form. */
export const PERSON_QUESTIONS: readonly PersonField[] = namesOf(PERSON_FIELDS)
  .filter((name) => placeOf(name) !== null)
  .sort((a, b) => (placeOf(a) ?? 0) - (placeOf(b) ?? 0));

function placeOf(name: PersonField): number | null {
  return PERSON_FIELDS[name].asked;
}

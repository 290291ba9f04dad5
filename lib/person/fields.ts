/**
 * Everything that is known of a person, once: the input of the commands, the two tables that store it, `people.csv` and
 * the forms follow from this list, in the order of the file.
 */
import { type AnyField, type Facts, fieldNames, pick, type Typed } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';

interface PersonFieldRules extends AnyField {
  /** Its place in the form; null where nobody is asked. */
  readonly asked: number | null;
}

const said = { kind: KIND.words, empty: '', column: KIND.words } as const;
const day = { kind: KIND.orNull(KIND.day), empty: null, column: KIND.orNull(KIND.date) } as const;

export const PERSON_FIELDS = {
  name: { kind: KIND.name, column: KIND.name, label: 'Full name', asked: 1 },
  street: { ...said, label: 'Street', asked: 3 },
  city: { ...said, label: 'Town', asked: 4 },
  region: { ...said, label: 'State', asked: 5 },
  postcode: { ...said, label: 'Postcode', asked: 6 },
  phone: { ...said, label: 'Phone', asked: 2 },
  email: { ...said, label: 'Mail', asked: null },
  memberNo: { ...said, label: 'Member number', hint: 'Empty for a guest', asked: 10 },
  memberUntil: { ...day, label: 'Dues paid until', hint: 'Empty for a guest', asked: 11 },
  licenceNo: { ...said, label: 'Licence number', asked: 7 },
  licenceRegion: {
    ...{ kind: KIND.regionOrEmpty, empty: '', column: KIND.regionOrEmpty, asked: 8 },
    label: 'Licence of',
    hint: 'Country and State, such as US-WY',
  },
  licenceExpires: { ...day, label: 'Licence expires', hint: 'Such as Dec 31, 2026', asked: 9 },
  /** To whom their money is made out instead, such as a guardian; a court or a State may ask for more than a name. */
  payee: {
    ...{ kind: KIND.wordsUpTo(120), empty: '', column: KIND.wordsUpTo(120), later: true, asked: 12 },
    label: 'Pay to',
    hint: 'For a minor, such as Dana Cole, guardian of Sam Cole',
  },
} as const satisfies Readonly<Record<string, PersonFieldRules>>;

/** Where somebody is reached at once; no paper of a seller or a buyer carries it. */
export const REACH_FIELDS = pick(PERSON_FIELDS, ['phone', 'email']);
const ADDRESS_FIELDS = pick(PERSON_FIELDS, ['street', 'city', 'region', 'postcode']);
/** The association has these too. */
export const CONTACT_FIELDS = { ...ADDRESS_FIELDS, ...REACH_FIELDS };
export type ContactField = keyof typeof CONTACT_FIELDS;
/** What goes when somebody's contact data is removed: where they are reached, and who is paid for them. */
export const REMOVED_FIELDS = { ...CONTACT_FIELDS, ...pick(PERSON_FIELDS, ['payee']) };
export type RemovedField = keyof typeof REMOVED_FIELDS;
/** What a licence says: a person's own, or a fur buyer's. */
export const LICENCE_FIELDS = pick(PERSON_FIELDS, ['licenceNo', 'licenceRegion', 'licenceExpires']);

export type PersonField = keyof typeof PERSON_FIELDS;
export type Address = Facts<typeof ADDRESS_FIELDS>;
export type Licence = Facts<typeof LICENCE_FIELDS>;
export type PersonFacts = Facts<typeof PERSON_FIELDS>;
export type PersonAsTyped = Typed<typeof PERSON_FIELDS>;

/** In the order of the form. */
export const PERSON_QUESTIONS: readonly PersonField[] = fieldNames(PERSON_FIELDS)
  .filter((name) => PERSON_FIELDS[name].asked !== null)
  .sort((a, b) => (PERSON_FIELDS[a].asked ?? 0) - (PERSON_FIELDS[b].asked ?? 0));

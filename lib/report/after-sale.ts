/** What the papers for the time after a sale are made from. */
import type { LotNo } from '#lib/lot/number.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { type Column, type ListTable, tableOf } from '#lib/paper/list.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Lot, Person, SaleFacts } from '#lib/sale/facts.ts';
import type { SheetTag } from '#lib/settlement/parties.ts';
import { addressLines, clean, joined } from '#lib/settlement/spelling.ts';

export interface AfterwardsFacts {
  readonly context: PaperContext;
  readonly facts: SaleFacts;
  readonly people: readonly Person[];
  readonly tags: readonly SheetTag[];
  /** The region (ISO 3166-2) in which a lot was taken, where it is not the sale's own. */
  readonly takenIn: ReadonlyMap<LotNo, string>;
  /** Days after the season's close until a statement of held furs is due. */
  readonly statementDays: number;
}

export type PartyWords = ReturnType<typeof partyOf>;

/** The partners behind each seller number in words: names together, every licence, the address of the first who has one. */
export function sellerParties({ facts, people }: AfterwardsFacts): Map<number, PartyWords> {
  const byId = new Map(people.map((person) => [person.personId, person]));
  return new Map(
    facts.sellers.map(({ sellerNo, partners }) => {
      const own = partners.flatMap(({ personId }) => byId.get(personId) ?? []);
      return [sellerNo, partyOf(own)];
    }),
  );
}

/** The same of each buyer; a licence shown at the sale comes before that of the person. */
export function buyerParties({ facts, people }: AfterwardsFacts): Map<number, PartyWords> {
  const byId = new Map(people.map((person) => [person.personId, person]));
  return new Map(
    facts.buyers.map(({ buyerNo, personId, licenceNo }) => {
      const person = byId.get(personId);
      const words = partyOf(person ? [person] : []);
      return [buyerNo, licenceNo === '' ? words : { ...words, licence: clean(licenceNo) }];
    }),
  );
}

function partyOf(people: readonly Person[]) {
  const names = people.map(({ name }) => name);
  const addressed = people.find((person) => addressLines(person).length > 0);
  return {
    names: joined(names, ', '),
    address: addressed ? joined(addressLines(addressed), ', ') : '',
    licence: joined(people.map(licenceOf), '; '),
    /** Each name with its licence: an agency asks by whose licence each of several partners sold. */
    licensed: joined(people.map(nameWithLicence), people.length > 1 ? '; ' : ', '),
  };
}

function licenceOf({ licenceNo, licenceRegion }: Person): string {
  return licenceNo === '' ? '' : joined([licenceNo, licenceRegion], ', ');
}

function nameWithLicence(person: Person): string {
  const licence = licenceOf(person);
  return `${person.name}, ${licence === '' ? 'no licence shown' : `licence ${licence}`}`;
}

/** The export tags of each lot, those that are not good with what they are. */
export function tagsInWords({ tags }: AfterwardsFacts): Map<LotNo, string[]> {
  const ofLots = [...groupBy(tags, ({ lotNo }) => lotNo)];
  return new Map(ofLots.map(([lotNo, own]) => [lotNo, own.map(tagInWords)]));
}

function tagInWords({ tag, condition, mended }: SheetTag): string {
  const by = mended?.by ? `, replaced by ${mended.by}` : '';
  return condition === 'intact' ? tag : `${tag} (${condition}${by})`;
}

/** A table for each seller number among the lots, in the order of the numbers; the lots keep theirs. */
export function bySeller<T extends { readonly lot: Lot }>(
  after: AfterwardsFacts,
  lots: readonly T[],
  columns: readonly Column<T>[],
): ListTable[] {
  const sellers = sellerParties(after);
  return [...groupBy(lots, ({ lot }) => lot.sellerNo)]
    .sort(([a], [b]) => a - b)
    .map(([sellerNo, theirs]) => {
      const seller = sellers.get(sellerNo);
      const title = joined([`Seller ${sellerNo}: ${seller?.licensed ?? ''}`, seller?.address ?? ''], '; ');
      return tableOf(theirs, columns, { title });
    });
}

/** What the papers of a calendar year stand on: its sales with whoever was behind their numbers, and how both are named. */
import { longDate, yearOf } from '#lib/date/date.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import { type ListPaper, paperAbout } from '#lib/paper/list.ts';
import type { Address, PersonFacts } from '#lib/person/fields.ts';
import { foldName } from '#lib/result/search.ts';
import { compareCodePoints } from '#lib/result/text.ts';
import type { Sale, SaleFacts, Stage } from '#lib/sale/facts.ts';
import { clean, joined } from '#lib/settlement/spelling.ts';

/** A person as the association knows them now. One person is the same at every sale, whatever a folder called them there. */
export interface YearPerson extends Address, Pick<PersonFacts, 'name' | 'memberNo'> {
  readonly personId: number;
}

export interface YearSale {
  readonly saleId: number;
  readonly stage: Stage;
  readonly facts: SaleFacts;
  /** By the reference that the facts name them with. */
  readonly people: ReadonlyMap<string, YearPerson>;
}

export interface YearFacts {
  /** Such as `2026`. */
  readonly year: string;
  /** The sales that were held in it, and those of which a seller was paid in it; the oldest first. */
  readonly sales: readonly YearSale[];
}

/** The columns by which a person is found again, and their cells. */
export const PERSON_COLUMNS = ['person', 'street', 'city', 'region', 'postcode', 'member_no'] as const;

export function personCells({ name, street, city, region, postcode, memberNo }: YearPerson): string[] {
  return [name, street, city, region, postcode, memberNo].map(clean);
}

/** Throws where the sale has no such person. */
export function personIn({ saleId, people }: YearSale, ref: string): YearPerson {
  const person = people.get(ref);
  if (person === undefined) throw new RangeError(`sale ${saleId}: no particulars of ${ref}`);
  return person;
}

export function comparePeople(a: YearPerson, b: YearPerson): number {
  return compareCodePoints(foldName(a.name), foldName(b.name)) || a.personId - b.personId;
}

/** A sale whose lots are still being called may come to anything: it is counted once it is being settled. */
export function isSettled({ stage }: Pick<YearSale, 'stage'>): boolean {
  return stage === 'settling' || stage === 'closed';
}

export function isHeldIn({ facts }: YearSale, year: string): boolean {
  return yearOf(facts.sale.heldOn) === year;
}

/** The sales whose figures a year counts. */
export function countedSales({ year, sales }: YearFacts): YearSale[] {
  return sales.filter((sale) => isSettled(sale) && isHeldIn(sale, year));
}

export function saleInWords({ name, heldOn }: Pick<Sale, 'name' | 'heldOn'>): string {
  return `${clean(name)}, ${longDate(heldOn)}`;
}

/** One sentence for each sale of the year that is not counted yet. */
export function uncounted({ year, sales }: YearFacts): string[] {
  return sales
    .filter((sale) => isHeldIn(sale, year) && !isSettled(sale))
    .map(({ facts }) => `Not counted yet: ${saleInWords(facts.sale)}. Its lots are still being taken in or called.`);
}

type Own = Pick<ListPaper, 'title' | 'tables'> & Partial<Pick<ListPaper, 'opening' | 'remarks' | 'caution'>>;

/** A paper of a year: where a sale's name would stand, the year and its sales. */
export function paperOfYear(ground: PaperGround, facts: YearFacts, own: Own): ListPaper {
  const names = facts.sales.filter((sale) => isHeldIn(sale, facts.year)).map((sale) => saleInWords(sale.facts.sale));
  const words = names.length === 0 ? 'No sale was held' : joined(names, ' · ');
  return paperAbout(ground, { sale: { name: `The year ${facts.year}`, words }, ...own });
}

/** The currencies in their order; money of two is never added up. */
export function currenciesOf(items: readonly { readonly currency: string }[]): string[] {
  return [...new Set(items.map(({ currency }) => currency))].sort(compareCodePoints);
}

/** What one settlement sheet is made from: the facts of one seller number, and what only the issuing knows. */
import type { Buyer, Charge, Goods, Lot, Outcome, Person, Sale, Seller, TagCondition } from '#lib/facts.ts';
import type { LotNo } from '#lib/lot-number.ts';
import type { ContactField, PersonFacts } from '#lib/person/fields.ts';

export type SheetAssociation = Pick<PersonFacts, 'name' | ContactField>;

export interface SheetTag {
  readonly lotNo: LotNo;
  readonly tag: string;
  readonly condition: TagCondition;
  /** There where it broke after its lot was called: the tag that came in its place, or null while it awaits one. */
  readonly mended?: { readonly by: string | null };
}

/** All lists are of this seller number only, except the goods, the people and the buyers, which may be the whole sale's. */
export interface SellerFile {
  readonly association: SheetAssociation;
  readonly sale: Sale;
  readonly goods: readonly Goods[];
  readonly people: readonly Person[];
  readonly buyers: readonly Buyer[];
  readonly seller: Seller;
  readonly lots: readonly Lot[];
  readonly outcomes: readonly Outcome[];
  readonly charges: readonly Charge[];
  readonly tags: readonly SheetTag[];
}

export interface SheetStamp {
  /** The number of the sheet within its sale, or null for a preview. */
  readonly number: number | null;
  /** ISO 8601 date. */
  readonly issuedOn: string;
  readonly head: { readonly seq: number; readonly hash: string };
}

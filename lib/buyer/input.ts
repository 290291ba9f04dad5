/** What the papers of one buyer are made from: the facts of one buyer number. */

import type { Buyer, Goods, Lot, Method, Outcome, Payment, Person, Sale, Seller } from '#lib/facts.ts';
import type { Licence } from '#lib/person/fields.ts';
import type { SheetAssociation, SheetTag } from '#lib/sheet/input.ts';

/** A lot with the region (ISO 3166-2) whose tags its pieces bear, empty where it is the sale's own. */
export interface BoughtLot extends Lot {
  readonly takenIn: string;
}

/** All lists are of this buyer only, except the goods, the sellers and the people, which may be the whole sale's. */
export interface BuyerFile {
  readonly association: SheetAssociation;
  readonly sale: Sale;
  readonly goods: readonly Goods[];
  readonly people: readonly Person[];
  readonly sellers: readonly Seller[];
  readonly buyer: Buyer & Licence;
  /** The lots sold to this buyer, with the outcomes that say so. */
  readonly lots: readonly BoughtLot[];
  readonly outcomes: readonly Outcome[];
  readonly tags: readonly SheetTag[];
  /** Those that stand. */
  readonly payments: readonly Payment[];
}

/** How methods of payment are called on a paper. */
export const METHOD_WORDS: Readonly<Record<Method, string>> = {
  cash: 'Cash',
  check: 'Check',
  card: 'Card',
  other: 'Other',
};

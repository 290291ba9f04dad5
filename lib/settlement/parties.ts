/** The people on a sheet: who is behind the seller number, where they live, and what they settle as. */
import type { LotNo } from '#lib/lot/number.ts';
import type { ContactField, PersonFacts } from '#lib/person/fields.ts';
import { groupBy } from '#lib/result/text.ts';
import type {
  Buyer,
  Charge,
  Goods,
  Lot,
  Membership,
  Outcome,
  Person,
  Sale,
  Seller,
  TagCondition,
} from '#lib/sale/facts.ts';
import type { SettlementSheet, SheetPartner, SheetTags } from './model.ts';
import { addressLines, clean, joined, licenceWords, listed, priceFor } from './spelling.ts';

/** The partners in their order. Throws when the file does not hold one of them. */
export function partnersOf({ seller, people }: Pick<SellerFile, 'seller' | 'people'>): SheetPartner[] {
  const byId = new Map(people.map((person) => [person.personId, person]));
  return seller.partners.map(({ personId }) => {
    const person = byId.get(personId);
    if (person === undefined) throw new RangeError(`seller number ${seller.sellerNo}: no particulars of ${personId}`);
    return {
      personId,
      name: clean(person.name),
      address: addressLines(person),
      licence: licenceWords('Licence', person),
      member: person.memberNo === '' ? '' : `Member ${clean(person.memberNo)}`,
    };
  });
}

export function associationOf(association: SheetAssociation): SettlementSheet['association'] {
  const { name, phone, email } = association;
  const reach = joined([phone, email], ' · ');
  return { name: clean(name), address: [...addressLines(association), ...(reach === '' ? [] : [reach])] };
}

/** What the number settles as, and for partners why. */
export function settlementMembership(membership: Membership, partners: number): string {
  if (partners < 2) return membership === 'member' ? 'Member, dues paid to the day of the sale' : 'Guest';
  return membership === 'member'
    ? 'Members, the dues of every partner paid to the day of the sale'
    : 'Guests: not every partner had paid dues to the day of the sale';
}

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
  readonly issuedOn: string;
  readonly head: { readonly seq: number; readonly hash: string };
}

/** Own words; a fact of the trade with no source of its own: common practice. */
export const CAUTION =
  'Taxes and tax returns are for your accountant to judge; tags, licences and permits for your wildlife agency.';

/** Lots that somebody behind the number bought back, and lots sold under their minimum. */
export function remarksOf(file: SellerFile, partners: readonly SheetPartner[]): string[] {
  const lots = new Map(file.lots.map((lot) => [lot.lotNo, lot]));
  const sold = file.outcomes.filter(({ kind }) => kind === 'sold');
  return [
    ...boughtBack(sold, file.buyers, partners),
    ...sold.flatMap((outcome) => underMinimum(outcome, lots.get(outcome.lotNo))),
  ];
}

/** UCC § 2-328(4): a seller's own bid matters to the buyers, so it stands on the paper. */
function boughtBack(sold: readonly Outcome[], buyers: readonly Buyer[], partners: readonly SheetPartner[]): string[] {
  const personOf = new Map(buyers.map(({ buyerNo, personId }) => [buyerNo, personId]));
  return partners.flatMap(({ personId, name }) => {
    const own = sold.filter(({ buyerNo }) => buyerNo !== null && personOf.get(buyerNo) === personId);
    if (own.length === 0) return [];
    const which = own.length === 1 ? 'Lot' : 'Lots';
    const numbers = [...new Set(own.map(({ buyerNo }) => String(buyerNo)))];
    return [
      `${which} ${listed(own.map(({ lotNo }) => lotNo))} went to ${name}, buyer ${listed(numbers)} and a seller of this number.`,
    ];
  });
}

function underMinimum({ lotNo, priceCents }: Outcome, lot: Lot | undefined): string[] {
  if (lot === undefined || lot.minimumCents === null || priceCents === null) return [];
  if (priceCents >= lot.minimumCents) return [];
  return [`Lot ${lotNo} was sold under its minimum of ${priceFor(lot.minimumCents, lot.by).words}.`];
}

export const CONDITIONS = {
  intact: '',
  broken: 'broken, to be replaced before export',
  replacement: 'replacement',
} as const;

export function sheetTagsOf(file: Pick<SellerFile, 'lots' | 'tags' | 'goods'>): SheetTags[] {
  const names = new Map(file.goods.map((kind) => [kind.goods, kind.name]));
  const tags = groupBy(file.tags, ({ lotNo }) => lotNo);
  return file.lots.flatMap(({ lotNo, goods }) => {
    const own = tags.get(lotNo) ?? [];
    return own.length === 0 ? [] : [{ lotNo, goods: clean(names.get(goods) ?? goods), tags: own.map(tagOf) }];
  });
}

function tagOf({ tag, condition, mended }: SheetTag): SheetTags['tags'][number] {
  const mark = mended?.by ? `broken, replaced by ${mended.by}` : CONDITIONS[condition];
  return { tag, condition, words: mark === '' ? tag : `${tag} (${mark})` };
}

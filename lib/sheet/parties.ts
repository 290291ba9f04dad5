/** The people on a sheet: who is behind the seller number, where they live, and what they settle as. */
import type { Membership, Person } from '#lib/facts.ts';
import type { SellerFile, SheetAssociation } from '#lib/sheet/input.ts';
import type { SettlementSheet, SheetPartner } from '#lib/sheet/model.ts';
import { addressLines, clean, dateInWords, joined } from '#lib/sheet/spell.ts';

/** The partners in their order. Throws when the file does not hold one of them. */
export function partnersOf({ seller, people }: Pick<SellerFile, 'seller' | 'people'>): SheetPartner[] {
  const byId = new Map(people.map((person) => [person.personId, person]));
  return seller.partners.map(({ personId }) => {
    const person = byId.get(personId);
    if (person === undefined) throw new RangeError(`seller number ${seller.sellerNo}: no particulars of ${personId}`);
    return partnerOf(person);
  });
}

function partnerOf(person: Person): SheetPartner {
  return {
    personId: person.personId,
    name: clean(person.name),
    address: addressLines(person),
    licence: licenceOf(person),
    member: person.memberNo === '' ? '' : `Member ${clean(person.memberNo)}`,
  };
}

function licenceOf({ licenceNo, licenceRegion, licenceExpires }: Person): string {
  if (licenceNo === '') return '';
  const until = licenceExpires === null ? '' : `to ${dateInWords(licenceExpires)}`;
  return `Licence ${joined([joined([licenceNo, licenceRegion], ', '), until], ', ')}`;
}

export function associationOf(association: SheetAssociation): SettlementSheet['association'] {
  const { name, phone, email } = association;
  const reach = joined([phone, email], ' · ');
  return { name: clean(name), address: [...addressLines(association), ...(reach === '' ? [] : [reach])] };
}

/** What the number settles as, and for partners why. */
export function membershipInWords(membership: Membership, partners: number): string {
  if (partners < 2) return membership === 'member' ? 'Member, dues paid to the day of the sale' : 'Guest';
  return membership === 'member'
    ? 'Members, the dues of every partner paid to the day of the sale'
    : 'Guests: not every partner had paid dues to the day of the sale';
}

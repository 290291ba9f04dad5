/** Writes the demo's people into the book: enrolled at their first sale, put right at the later ones. */
import { foldName } from '#lib/fold.ts';
import { STREETS, TOWNS } from './association.ts';
import type { BuyingHouse } from './buyers.ts';
import type { PlannedSale } from './calendar.ts';
import type { Hand } from './hand.ts';
import type { Trapper } from './sellers.ts';
import { LAPSED } from './specials.ts';

export interface Enrolled {
  readonly personId: number;
  /** A number of their own, from which address, telephone and licence are made. */
  readonly own: number;
  readonly memberUntil: string;
}

/** Everybody the book knows so far, by name. */
export type People = Map<string, Enrolled>;

/** Enrols a trapper, or renews the membership and the licence. Says whether dues are to be taken. */
export function meetTrapper(hand: Hand, people: People, { trapper, sale }: { trapper: Trapper; sale: PlannedSale }) {
  const known = people.get(trapper.name);
  const owesDues = trapper.member && (known?.memberUntil ?? '') < sale.heldOn;
  const memberUntil = owesDues ? sale.duesUntil : (known?.memberUntil ?? '');
  const own = known?.own ?? people.size + 1;
  const fields = { ...trapperFields(trapper, own), memberUntil, licenceExpires: licenceExpires(trapper, sale) };
  const answer = known
    ? hand.give('intake', 'person.amend', { personId: known.personId, ...fields })
    : hand.give('intake', 'person.enrol', { ref: '', ...fields });
  const enrolled = { personId: answer.personId, own, memberUntil };
  people.set(trapper.name, enrolled);
  return { ...enrolled, owesDues };
}

/** Licences run from July to June; one trapper has not renewed by this season's sale. */
function licenceExpires({ name }: Trapper, { heldOn, season, duesUntil }: PlannedSale): string {
  if (name === LAPSED && season === 3) return '2026-06-30';
  return `${heldOn < '2026-07-01' ? heldOn.slice(0, 4) : duesUntil.slice(0, 4)}-06-30`;
}

function trapperFields({ name, town, member }: Trapper, own: number) {
  return {
    name,
    ...addressOf(own),
    ...TOWNS[town],
    memberNo: member ? `LR-${String(own).padStart(3, '0')}` : '',
    licenceNo: `T-${4100 + own * 7}`,
    licenceRegion: TOWNS[town].region,
    // Not everybody has an e-mail address, and some letters cannot stand in one.
    email: own % 3 === 0 ? '' : emailOf(name, own),
  };
}

function emailOf(name: string, own: number): string {
  const folded = foldName(name).replace(/[^a-z]+/g, '.');
  return `${/^[a-z][a-z.]+[a-z]$/.test(folded) ? folded : `seller.${own}`}@example.org`;
}

function addressOf(own: number) {
  const street = `${100 + own * 9} ${STREETS[own % STREETS.length]}`;
  return { street, phone: `406-555-01${String(own % 100).padStart(2, '0')}` };
}

/** Enrols a buyer at their first sale and gives the person's id. */
export function meetBuyer(hand: Hand, people: People, { name, city, region, buyerNo }: BuyingHouse): number {
  const known = people.get(name);
  if (known) return known.personId;
  const own = 80 + buyerNo;
  const email = `buying.${buyerNo}@example.org`;
  const answer = hand.give('till', 'person.enrol', { ref: '', name, city, region, ...addressOf(own), email });
  const personId = answer.personId;
  people.set(name, { personId, own, memberUntil: '' });
  return personId;
}

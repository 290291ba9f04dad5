/** Writes the demo's people into the book: enrolled at their first sale, put right at the later ones. */
import { foldName } from '#lib/result/search.ts';
import { STREETS, TOWNS } from './association.ts';
import type { PlannedSale } from './calendar.ts';
import type { Driver } from './driver.ts';
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
export function meetTrapper(driver: Driver, people: People, trapper: Trapper, sale: PlannedSale) {
  const known = people.get(trapper.name);
  const owesDues = trapper.member && (known?.memberUntil ?? '') < sale.heldOn;
  const memberUntil = owesDues ? sale.duesUntil : (known?.memberUntil ?? '');
  const own = known?.own ?? people.size + 1;
  const fields = { ...trapperFields(trapper, own), memberUntil, licenceExpires: licenceExpires(trapper, sale) };
  const answer = known
    ? driver.submit('intake', 'person.amend', { personId: known.personId, ...fields })
    : driver.submit('intake', 'person.enrol', { ref: '', ...fields });
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
export function meetBuyer(driver: Driver, people: People, { name, city, region, buyerNo }: BuyingHouse): number {
  const known = people.get(name);
  if (known) return known.personId;
  const own = 80 + buyerNo;
  const email = `buying.${buyerNo}@example.org`;
  const answer = driver.submit('till', 'person.enrol', { ref: '', name, city, region, ...addressOf(own), email });
  const personId = answer.personId;
  people.set(name, { personId, own, memberUntil: '' });
  return personId;
}

/** The invented buyers: their numbers stay theirs from sale to sale, and each bids on what it has a use for. */
export interface BuyingHouse {
  readonly buyerNo: number;
  readonly name: string;
  readonly city: string;
  readonly region: string;
  /** The goods it bids on, or null for anything. */
  readonly wants: readonly string[] | null;
  readonly method: 'cash' | 'check' | 'card';
  /** The seasons it comes to, as places among the demo's sales. */
  readonly comes: readonly number[];
  readonly exemptNo?: string;
  readonly limit?: string;
}

const EVERY = [0, 1, 2, 3];
const WATER = ['muskrat', 'beaver', 'otter', 'mink', 'raccoon', 'castor'];
const LONG_HAIR = ['coyote', 'fox-red', 'fox-gray', 'bobcat', 'badger'];

// biome-ignore format: one line a buyer reads as the table it is.
export const BUYERS: readonly BuyingHouse[] = [
  { buyerNo: 1, name: 'Quillmark Skins', city: 'Tamarack Ferry', region: 'US-MT', wants: null, method: 'check', comes: EVERY },
  { buyerNo: 2, name: 'Stonecrake Hides', city: 'Cold Kettle', region: 'US-MT', wants: [...WATER, 'deer-hide'], method: 'check', comes: EVERY },
  { buyerNo: 3, name: 'Ignác Vlkovský', city: 'Split Anvil', region: 'US-WY', wants: LONG_HAIR, method: 'check', comes: EVERY },
  { buyerNo: 4, name: 'Bertille Marchandeau', city: 'Four Wells', region: 'US-MT', wants: ['marten', 'mink', 'otter', 'bobcat', 'weasel'], method: 'check', comes: EVERY },
  { buyerNo: 5, name: 'Fenwright & Daughters', city: 'Cold Kettle', region: 'US-MT', wants: null, method: 'card', comes: EVERY, exemptNo: 'RS-20417' },
  { buyerNo: 6, name: 'Ruan Pretorswell', city: 'Split Anvil', region: 'US-WY', wants: [...LONG_HAIR, 'raccoon'], method: 'check', comes: [0, 1, 2] },
  { buyerNo: 7, name: 'Teodor Wysznicki-Vale', city: 'Four Wells', region: 'US-MT', wants: WATER, method: 'cash', comes: EVERY },
  { buyerNo: 8, name: 'Saltmarrow Furs', city: 'Tamarack Ferry', region: 'US-MT', wants: null, method: 'check', comes: EVERY },
  { buyerNo: 9, name: 'Hollis Verhaegen-Roe', city: 'Lantern Ridge', region: 'US-MT', wants: ['skull', 'skunk', 'opossum', 'weasel', 'badger', 'deer-hide'], method: 'cash', comes: EVERY },
  { buyerNo: 10, name: 'Oddný Steinvör Ljósalind', city: 'Cold Kettle', region: 'US-MT', wants: [...LONG_HAIR, 'marten', 'skull'], method: 'check', comes: [1, 2, 3], limit: '5000.00' },
  { buyerNo: 11, name: 'Caraway Tanning Cooperative', city: 'Lantern Ridge', region: 'US-MT', wants: ['deer-hide', 'skunk', 'opossum', 'badger', 'castor', 'muskrat'], method: 'check', comes: [0, 2, 3] },
];

/** The buyers at a sale who would bid on these goods. */
export function biddersOn(goods: string, season: number): BuyingHouse[] {
  return BUYERS.filter(({ wants, comes }) => comes.includes(season) && (wants === null || wants.includes(goods)));
}

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

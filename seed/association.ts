/** The invented association. No place, person or number in the demo is real. */
export const ASSOCIATION = {
  name: 'Lantern Ridge Fur Harvesters',
  street: '14 Cooperage Row',
  city: 'Lantern Ridge',
  region: 'US-MT',
  postcode: '59990',
  phone: '406-555-0100',
  email: 'office@example.org',
  paper: 'letter',
  timeZone: 'America/Denver',
} as const;

export const REGION = ASSOCIATION.region;

/** The three areas of take that this association keeps apart, because their fur brings different prices. */
export const SECTIONS = ['Mountain', 'Foothills', 'Prairie'] as const;
export type Section = (typeof SECTIONS)[number];

export const STREETS = [
  'Cooperage Row',
  'Kettle Lane',
  'Old Ferry Road',
  'Slate Hollow Drive',
  'Lantern Street',
  'Tinsmith Way',
  'Alder Bench Road',
  'Four Wells Lane',
] as const;

/** Each town with its postcode; sellers from outside the State come from the last. */
export const TOWNS = {
  ridge: { city: 'Lantern Ridge', region: 'US-MT', postcode: '59990' },
  ferry: { city: 'Tamarack Ferry', region: 'US-MT', postcode: '59992' },
  kettle: { city: 'Cold Kettle', region: 'US-MT', postcode: '59994' },
  wells: { city: 'Four Wells', region: 'US-MT', postcode: '59996' },
  outside: { city: 'Split Anvil', region: 'US-WY', postcode: '83199' },
} as const;
export type Town = keyof typeof TOWNS;

/** The goods of the demo's sales, with the association's own sizes, grades, codes and cautions. */
const GRADES = ['I', 'II', 'III', 'damaged'];

const FRESH =
  'Green or whole: waterproof gloves, nothing to eat or drink at the table, wash hands and tools afterwards.';
const WATER = `${FRESH} Can carry tularemia.`;
const DUST = `${FRESH} Wear a dust mask when beating or brushing.`;
const ROUNDWORM = `${FRESH} Droppings may hold roundworm eggs: bag them, do not sweep them up.`;

const LEAKS = 'Glands leak when they are not dry: keep them in their bag.';

const SMALL_TO_LARGE = ['S', 'M', 'L'];
const SMALL_TO_EXTRA = ['S', 'M', 'L', 'XL'];
/** Length and width added, in inches. The classes are this association's own. */
const BEAVER_INCHES = ['under 50', '50 to 54', '55 to 59', '60 to 64', '65 and up'];

const PLAIN = {
  by: 'piece' as const,
  exportTag: false,
  tagSpeciesCode: '',
  seasonLimit: null as number | null,
  sizes: SMALL_TO_LARGE,
  grades: GRADES,
  caution: FRESH,
};

// The species codes and the season limits are settings of this association, not anybody's law.
const BOBCAT = { exportTag: true, tagSpeciesCode: 'BOB', seasonLimit: 20 };
const OTTER = { exportTag: true, tagSpeciesCode: 'OTT', seasonLimit: 3 };

const UNSORTED = { sizes: [], grades: [] };

// biome-ignore format: one line a kind reads as the table it is.
export const GOODS = [
  { goods: 'muskrat', name: 'Muskrat', scientificName: 'Ondatra zibethicus', ...PLAIN, caution: WATER },
  { goods: 'raccoon', name: 'Raccoon', scientificName: 'Procyon lotor', ...PLAIN, sizes: SMALL_TO_EXTRA, caution: ROUNDWORM },
  { goods: 'coyote', name: 'Coyote', scientificName: 'Canis latrans', ...PLAIN, sizes: SMALL_TO_EXTRA, caution: DUST },
  { goods: 'fox-red', name: 'Red fox', scientificName: 'Vulpes vulpes', ...PLAIN, caution: DUST },
  { goods: 'fox-gray', name: 'Gray fox', scientificName: 'Urocyon cinereoargenteus', ...PLAIN, caution: DUST },
  { goods: 'beaver', name: 'Beaver', scientificName: 'Castor canadensis', ...PLAIN, sizes: BEAVER_INCHES, caution: WATER },
  { goods: 'bobcat', name: 'Bobcat', scientificName: 'Lynx rufus', ...PLAIN, ...BOBCAT },
  { goods: 'otter', name: 'River otter', scientificName: 'Lontra canadensis', ...PLAIN, ...OTTER },
  { goods: 'mink', name: 'Mink', scientificName: 'Neogale vison', ...PLAIN },
  { goods: 'marten', name: 'Marten', scientificName: 'Martes americana', ...PLAIN },
  { goods: 'weasel', name: 'Long-tailed weasel', scientificName: 'Neogale frenata', ...PLAIN, sizes: [] },
  { goods: 'badger', name: 'Badger', scientificName: 'Taxidea taxus', ...PLAIN },
  { goods: 'skunk', name: 'Striped skunk', scientificName: 'Mephitis mephitis', ...PLAIN, sizes: [] },
  { goods: 'opossum', name: 'Opossum', scientificName: 'Didelphis virginiana', ...PLAIN, sizes: [] },
  { goods: 'castor', name: 'Castor, dried', scientificName: 'Castor canadensis', ...PLAIN, ...UNSORTED, by: 'oz' as const, caution: LEAKS },
  { goods: 'deer-hide', name: 'Deer hide, salted', scientificName: 'Odocoileus', ...PLAIN, ...UNSORTED, by: 'lb' as const },
  { goods: 'skull', name: 'Skull, cleaned', scientificName: '', ...PLAIN, ...UNSORTED, by: 'lot' as const, caution: '' },
];

export const NAMES: ReadonlyMap<string, string> = new Map(GOODS.map(({ goods, name }) => [goods, name]));

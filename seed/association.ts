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

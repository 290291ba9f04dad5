/**
 * Goods that association sales in North America commonly take, for a first sale to tick: names and scientific names
 * are those of the trade and of zoology. Sizes and grades are left to the association, whose own words they are.
 */
import type { By, Goods } from './facts.ts';

/**
 * The furbearers of the United States under CITES Appendix II by Article II(2)(b), whose skins need an export tag.
 * Source: 50 CFR 23.69(a). Rules change: check with your wildlife agency.
 */
export const CITES_FURBEARERS: readonly Pick<Goods, 'name' | 'scientificName'>[] = [
  { name: 'Bobcat', scientificName: 'Lynx rufus' },
  { name: 'River otter', scientificName: 'Lontra canadensis' },
  { name: 'Canada lynx', scientificName: 'Lynx canadensis' },
  { name: 'Gray wolf', scientificName: 'Canis lupus' },
  { name: 'Brown bear', scientificName: 'Ursus arctos' },
];

const SCIENTIFIC_NAMES = new Set(CITES_FURBEARERS.map(({ scientificName }) => scientificName.toLowerCase()));

/** Whether goods of this scientific name are among the five kinds; case and outer spaces do not matter. */
export function needsExportTag(scientificName: string): boolean {
  return SCIENTIFIC_NAMES.has(scientificName.trim().toLowerCase());
}

export type StartingGoods = Pick<Goods, 'goods' | 'name' | 'scientificName' | 'by' | 'exportTag'>;

const COMMON: readonly (readonly [goods: string, name: string, scientificName: string, by: By])[] = [
  ['beaver', 'Beaver', 'Castor canadensis', 'piece'],
  ['bobcat', 'Bobcat', 'Lynx rufus', 'piece'],
  ['castor', 'Beaver castor', 'Castor canadensis', 'oz'],
  ['coyote', 'Coyote', 'Canis latrans', 'piece'],
  ['deer-hide', 'Deer hide', 'Odocoileus', 'lb'],
  ['fisher', 'Fisher', 'Pekania pennanti', 'piece'],
  ['fox-gray', 'Gray fox', 'Urocyon cinereoargenteus', 'piece'],
  ['fox-red', 'Red fox', 'Vulpes vulpes', 'piece'],
  ['marten', 'Marten', 'Martes americana', 'piece'],
  ['mink', 'Mink', 'Neogale vison', 'piece'],
  ['muskrat', 'Muskrat', 'Ondatra zibethicus', 'piece'],
  ['opossum', 'Opossum', 'Didelphis virginiana', 'piece'],
  ['otter', 'River otter', 'Lontra canadensis', 'piece'],
  ['raccoon', 'Raccoon', 'Procyon lotor', 'piece'],
  ['skunk', 'Skunk', 'Mephitis mephitis', 'piece'],
  ['weasel', 'Weasel', 'Mustela', 'piece'],
];

/** The list with the export tag asked for where 50 CFR 23.69(a) names the kind. */
export const STARTING_GOODS: readonly StartingGoods[] = COMMON.map(([goods, name, scientificName, by]) => ({
  goods,
  name,
  scientificName,
  by,
  exportTag: needsExportTag(scientificName),
}));

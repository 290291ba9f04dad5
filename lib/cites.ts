/**
 * The furbearers of the United States under CITES Appendix II by Article II(2)(b), whose skins need an export tag.
 * Source: 50 CFR 23.69(a). Rules change: check with your wildlife agency.
 */
export interface CitesKind {
  readonly name: string;
  readonly scientificName: string;
}

export const CITES_FURBEARERS: readonly CitesKind[] = [
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

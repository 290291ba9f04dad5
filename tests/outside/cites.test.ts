/** The kinds whose skins bear an export tag, against 50 CFR 23.69(a): bobcat, river otter, Canada lynx, gray wolf, brown bear. */
import { describe, expect, it } from 'vitest';
import { CITES_FURBEARERS, needsExportTag } from '#lib/sale/goods.ts';

describe('the furbearers of 50 CFR 23.69(a)', () => {
  it('are these five, under their scientific names', () => {
    expect(CITES_FURBEARERS.map(({ scientificName }) => scientificName)).toEqual([
      'Lynx rufus',
      'Lontra canadensis',
      'Lynx canadensis',
      'Canis lupus',
      'Ursus arctos',
    ]);
  });
  it.each(['Lynx rufus', 'lontra CANADENSIS', ' Ursus arctos '])('%j needs an export tag', (name) => {
    expect(needsExportTag(name)).toBe(true);
  });
  // Furbearers of the same sales that are not in the list; Canis latrans and Vulpes vulpes are near to it in name.
  it.each([
    'Procyon lotor',
    'Ondatra zibethicus',
    'Castor canadensis',
    'Canis latrans',
    'Vulpes vulpes',
    'Ursus americanus',
    '',
  ])('%j needs none', (name) => {
    expect(needsExportTag(name)).toBe(false);
  });
});

import type { SheetTag } from '#lib/sheet/input.ts';

/** A tag of a called lot as it is chosen from a list: its number, and what is known of it in words. */
export interface MendableTag {
  readonly tag: string;
  readonly words: string;
}

/** The tags of one called lot of which something can be said; one that broke before the hammer is on no piece. */
export function mendableTags(tags: readonly Omit<SheetTag, 'lotNo'>[]): MendableTag[] {
  return tags
    .filter(({ condition, mended }) => condition !== 'broken' || mended !== undefined)
    .map(({ tag, mended }) => ({ tag, words: mended === undefined ? tag : `${tag} (${stateOf(mended.by)})` }));
}

function stateOf(by: string | null): string {
  return by === null ? 'broken, awaits its replacement' : `replaced by ${by}`;
}

/** Goods as they are typed on a screen, and as the commands take them. */
import { wholeNumber } from '#app/ui/whole-number.ts';
import type { Goods } from '#lib/facts.ts';
import { STARTING_GOODS } from '#lib/starting-goods.ts';

export interface TypedGoods extends Omit<Goods, 'seasonLimit'> {
  readonly seasonLimit: string;
  /** Words with commas between. */
  readonly sizes: string;
  readonly grades: string;
  readonly caution: string;
}

export const NO_GOODS: TypedGoods = {
  ...{ goods: '', name: '', scientificName: '', by: 'piece', exportTag: false, tagSpeciesCode: '', seasonLimit: '' },
  ...{ sizes: '', grades: '', caution: '' },
};

/** The starting list, with no sizes, grades, codes or limits: those are the association's own. */
export const START_GOODS: readonly TypedGoods[] = STARTING_GOODS.map((kind) => ({ ...NO_GOODS, ...kind }));

interface GoodsWords extends Goods {
  readonly sizes: readonly string[];
  readonly grades: readonly string[];
  readonly caution: string;
}

/** Goods of the book as they would be typed again. */
export function typedGoods({ seasonLimit, sizes, grades, ...rest }: GoodsWords): TypedGoods {
  const words = { sizes: sizes.join(', '), grades: grades.join(', ') };
  return { ...rest, ...words, seasonLimit: seasonLimit === null ? '' : String(seasonLimit) };
}

/** The input of the goods' commands. A limit that is no whole number goes as it was typed, for the book to refuse. */
export function goodsInputOf({ seasonLimit, sizes, grades, ...rest }: TypedGoods) {
  return {
    ...rest,
    seasonLimit: seasonLimit === '' ? null : wholeNumber(seasonLimit),
    sizes: listOf(sizes),
    grades: listOf(grades),
  };
}

function listOf(typed: string): string[] {
  return typed
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
}

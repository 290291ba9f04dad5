/** Goods as they are typed on a screen, and as the commands take them. */
import { wholeNumber } from '#app/ui/whole-number.ts';
import { emptyTyped } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';
import { GOODS_FIELDS, type GoodsAsTyped } from '#lib/goods/fields.ts';
import { STARTING_GOODS } from '#lib/starting-goods.ts';

export const NO_GOODS: GoodsAsTyped = { ...emptyTyped(GOODS_FIELDS), by: 'piece' };

/** The starting list, with no sizes, grades, codes or limits: those are the association's own. */
export const START_GOODS: readonly GoodsAsTyped[] = STARTING_GOODS.map((kind) => ({ ...NO_GOODS, ...kind }));

/** The input of the goods' commands. A limit that is no whole number goes as it was typed, for the book to refuse. */
export function goodsInputOf({ seasonLimit, sizes, grades, ...rest }: GoodsAsTyped) {
  return {
    ...rest,
    seasonLimit: seasonLimit === '' ? null : wholeNumber(seasonLimit),
    sizes: listOf(sizes),
    grades: listOf(grades),
  };
}

function listOf(typed: string): string[] {
  const read = KIND.wordList.read(typed);
  return read.ok ? read.value : [];
}

import { z } from 'zod';
import { GOODS_FIELDS } from '#lib/goods/fields.ts';
import { BYS } from '#lib/lot/fields.ts';
import { shapeOf, someText } from '../inputs.ts';

const wordList = z.array(someText).max(30, { error: 'Enter at most 30 words.' }).default([]);

/** Goods as an association says them. The limit and the words are values here, and not the text of a form. */
export const goodsFields = {
  ...shapeOf(GOODS_FIELDS),
  by: z.enum(BYS, { error: 'Choose piece, lot, lb or oz.' }),
  seasonLimit: z
    .int({ error: 'Enter the limit as a whole number.' })
    .min(1, { error: 'Enter at least 1, or nothing for no limit.' })
    .max(99_999, { error: 'Enter at most 99999.' })
    .nullable()
    .default(null),
  sizes: wordList,
  grades: wordList,
} satisfies z.ZodRawShape;

export const goodsInput = z.strictObject(goodsFields);

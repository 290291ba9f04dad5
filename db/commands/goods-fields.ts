import { z } from 'zod';
import { BYS } from '#lib/facts.ts';
import { flag, someText, text } from '../inputs.ts';

const wordList = z.array(someText).max(30, { error: 'Enter at most 30 words.' }).default([]);

/** Goods as an association says them: what they are called, sold by and marked with, and its own size and grade words. */
export const goodsFields = {
  goods: someText.max(40, { error: 'Enter at most 40 characters.' }),
  name: someText,
  scientificName: text,
  by: z.enum(BYS, { error: 'Choose piece, lot, lb or oz.' }),
  exportTag: flag.default(false),
  tagSpeciesCode: text,
  seasonLimit: z
    .int({ error: 'Enter the limit as a whole number.' })
    .min(1, { error: 'Enter at least 1, or nothing for no limit.' })
    .max(99_999, { error: 'Enter at most 99999.' })
    .nullable()
    .default(null),
  sizes: wordList,
  grades: wordList,
  caution: text,
} satisfies z.ZodRawShape;

export const goodsInput = z.strictObject(goodsFields);

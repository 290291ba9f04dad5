import { and, count, eq } from 'drizzle-orm';
import { z } from 'zod';
import { BYS, type Sale } from '#lib/facts.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand, type Scene } from '../command.ts';
import { flag, someText, text } from '../inputs.ts';
import { saleInput, saleOf } from '../sale-input.ts';
import { saveGoods, saveSale } from '../save/sale.ts';
import { sale } from '../schema/index.ts';

const wordList = z.array(someText).max(30).default([]);

export const goodsInput = z.strictObject({
  goods: someText.max(40, { error: 'Enter at most 40 characters.' }),
  name: someText,
  scientificName: text,
  by: z.enum(BYS, { error: 'Choose piece, lot, lb or oz.' }),
  exportTag: flag.default(false),
  tagSpeciesCode: text,
  seasonLimit: z.int().min(1).max(99_999).nullable().default(null),
  sizes: wordList,
  grades: wordList,
  caution: text,
});

const input = z.strictObject({ sale: saleInput, goods: z.array(goodsInput).max(200) });

/** Plans a sale: its terms, and the goods it takes. */
export const salePlan = defineCommand({
  name: 'sale.plan',
  summary: 'Adds a sale with its terms and its goods, in the stage “planned”.',
  stations: ['office'],
  input,
  run(scene, planned) {
    const facts = saleOf(planned.sale);
    if (isPlanned(scene, facts)) {
      const what = `There is already a sale called ${facts.name} on ${facts.heldOn}`;
      return refuse('taken', `${what}: give this one another name, or another day.`, 'sale.name');
    }
    const codes = new Set(planned.goods.map(({ goods }) => goods));
    if (codes.size < planned.goods.length) {
      return refuse('taken', 'Two goods have the same short name: give each its own.', 'goods');
    }
    const stray = Object.keys(facts.terms.commissionOverrides).find((code) => !codes.has(code));
    if (stray !== undefined) {
      return refuse(
        'unknown',
        `The commission names ${stray}, which is not among the goods: add it there.`,
        'sale.terms',
      );
    }
    const saleId = saveSale(scene, facts, 'planned');
    for (const goods of planned.goods) saveGoods(scene, saleId, goods);
    return accept({ saleId });
  },
});

/** A yearly sale may keep its name: the name and the day together say which it is. */
function isPlanned(scene: Scene, { name, heldOn }: Sale): boolean {
  const same = and(eq(sale.name, name), eq(sale.heldOn, heldOn));
  const found = scene.book.db.select({ n: count() }).from(sale).where(same).get();
  return (found?.n ?? 0) > 0;
}

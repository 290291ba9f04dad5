import * as z from 'zod';
import { defineSaleCommand } from '#db/book/command.ts';
import { goodsByCode } from '#db/book/find.ts';
import { rowId, shapeOf, someText, text } from '#db/book/inputs.ts';
import { addRow, updateRow } from '#db/book/rows.ts';
import { goods as goodsTable } from '#db/schema/index.ts';
import { BYS } from '#lib/lot/fields.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { decideGoodsName, decideGoodsOpen, decideGoodsRule } from '#lib/sale/amend.ts';
import { GOODS_FIELDS } from '#lib/sale/goods-fields.ts';
import { saleOfRow } from './facts.ts';
import { goodsSoFar, saleSoFar } from './views.ts';

const wordList = z.array(someText).max(30, { error: 'Enter at most 30 words.' }).default([]);

/** Goods as an association says them. The limit and the words are values here, and not the text of a form. */
const goodsFields = {
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

export const goodsAdd = defineSaleCommand({
  name: 'goods.add',
  summary: 'Adds goods to those that a sale takes, until it is closed.',
  logLabel: 'Goods added',
  stations: ['office'],
  input: z.strictObject({ saleId: rowId, ...goodsFields, reason: text }),
  run({ sale, ...context }, { reason, ...fields }) {
    const open = decideGoodsOpen(sale, reason);
    if (!open.ok) return open;
    if (goodsByCode(context.book, sale.id, fields.goods)) {
      return refuse('taken', `This sale has goods of the short name ${fields.goods}: give these another.`, 'goods');
    }
    return accept({ goodsId: addRow(context, goodsTable, fields) });
  },
});

/** Changes goods of a sale; their short name stays, because lists and other years' prices know them by it. */
export const goodsAmend = defineSaleCommand({
  name: 'goods.amend',
  summary: 'Changes goods that a sale takes, until it is closed.',
  logLabel: 'Goods amended',
  stations: ['office'],
  input: z.strictObject({ saleId: rowId, ...goodsFields, reason: text }),
  run({ book, sale, line }, { saleId, reason, goods: code, ...fields }) {
    const open = decideGoodsOpen(sale, reason);
    if (!open.ok) return open;
    const before = goodsByCode(book, saleId, code);
    if (!before) return refuse('unknown', `This sale takes no goods called ${code}: add them first.`, 'goods');
    const soFar = goodsSoFar(book, before.id);
    const decided = decideGoodsRule(before, fields, soFar);
    if (!decided.ok) return decided;
    const ownCommission = Object.hasOwn(saleOfRow(book, sale).terms.commissionOverrides, code);
    const paper = { issued: saleSoFar(book, sale).issued, ownCommission, called: soFar.called };
    const named = decideGoodsName(before.name, fields.name, paper);
    if (!named.ok) return named;
    updateRow({ book, line }, goodsTable, before.id, fields);
    return accept({ goodsId: before.id });
  },
});

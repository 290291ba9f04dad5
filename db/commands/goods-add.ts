import { z } from 'zod';
import { decideGoodsOpen } from '#lib/decide-amend-sale.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, text } from '../inputs.ts';
import { goodsByCode, saleById } from '../queries/find.ts';
import { saveGoods } from '../save/sale.ts';
import { goodsFields } from './goods-fields.ts';

const input = z.strictObject({ saleId: rowId, ...goodsFields, reason: text });

/** Lets a sale take goods that it did not take so far. */
export const goodsAdd = defineCommand({
  name: 'goods.add',
  summary: 'Adds goods to those that a sale takes, until it is closed.',
  logLabel: 'Goods added',
  stations: ['office'],
  input,
  run(context, { saleId, reason, ...fields }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const open = decideGoodsOpen(sale, reason);
    if (!open.ok) return open;
    if (goodsByCode(context.book, saleId, fields.goods)) {
      return refuse('taken', `This sale has goods of the short name ${fields.goods}: give these another.`, 'goods');
    }
    return accept({ goodsId: saveGoods(context, saleId, fields) });
  },
});

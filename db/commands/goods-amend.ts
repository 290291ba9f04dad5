import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { decideGoodsName, decideGoodsOpen, decideGoodsRule } from '#lib/decide-amend-sale.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, text } from '../inputs.ts';
import { goodsByCode, saleById } from '../queries/find.ts';
import { saleOfRow } from '../queries/sale-facts.ts';
import { goodsSoFar, saleSoFar } from '../queries/sale-so-far.ts';
import { goods as goodsTable } from '../schema/index.ts';
import { goodsFields } from './goods-fields.ts';

const input = z.strictObject({ saleId: rowId, ...goodsFields, reason: text });

/** Changes goods of a sale; their short name stays, because lists and other years' prices know them by it. */
export const goodsAmend = defineCommand({
  name: 'goods.amend',
  summary: 'Changes goods that a sale takes, until it is closed.',
  logLabel: 'Goods amended',
  stations: ['office'],
  input,
  run({ book, line }, { saleId, reason, goods: code, ...fields }) {
    const sale = saleById(book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
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
    book.db
      .update(goodsTable)
      .set({ ...fields, line })
      .where(eq(goodsTable.id, before.id))
      .run();
    return accept({ goodsId: before.id });
  },
});

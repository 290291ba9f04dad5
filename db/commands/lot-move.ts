import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { partyNumber, rowId } from '../inputs.ts';
import { lotNoOf } from '../lot-no.ts';
import { goodsById, saleById, sellerByNumber } from '../queries/find.ts';
import { lotToChange } from '../queries/lot-to-change.ts';
import { licencesGood } from '../queries/may-bring.ts';
import { lot } from '../schema/index.ts';
import { decideSeason } from './lot-fields.ts';

const input = z.strictObject({ lotId: rowId, sellerNo: partyNumber });

/** Puts a lot under another seller number before it is called; it keeps its own number and its tags. */
export const lotMove = defineCommand({
  name: 'lot.move',
  summary: 'Moves a lot to another seller number before it is called.',
  logLabel: 'Moved to another seller number',
  stations: ['intake', 'office'],
  input,
  run(context, { lotId, sellerNo }) {
    const row = lotToChange(context.book, lotId);
    if (!row.ok) return row;
    const seller = sellerByNumber(context.book, row.value.saleId, sellerNo);
    if (!seller) {
      return refuse(
        'unknown',
        `There is no seller number ${sellerNo}: check the card, or give the number first.`,
        'sellerNo',
      );
    }
    if (seller.id === row.value.sellerId) {
      return refuse(
        'already',
        `Lot ${lotNoOf(row.value)} is already seller ${sellerNo}'s: enter another number.`,
        'sellerNo',
      );
    }
    const sale = saleById(context.book, row.value.saleId);
    const licensed = sale ? licencesGood(context.book, sale, seller.id) : accept(null);
    if (!licensed.ok) return licensed;
    const goods = goodsById(context.book, row.value.goodsId);
    const at = { saleId: row.value.saleId, sellerId: seller.id, lotId };
    const within = goods ? decideSeason(context.book, at, { goods, count: row.value.count }) : accept(null);
    if (!within.ok) return { ...within, field: 'sellerNo' };
    context.book.db.update(lot).set({ sellerId: seller.id, line: context.line }).where(eq(lot.id, lotId)).run();
    return accept({ lotId, sellerNo });
  },
});

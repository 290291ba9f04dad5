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
  run(scene, { lotId, sellerNo }) {
    const row = lotToChange(scene.book, lotId);
    if (!row.ok) return row;
    const seller = sellerByNumber(scene.book, row.value.saleId, sellerNo);
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
    const sale = saleById(scene.book, row.value.saleId);
    const licensed = sale ? licencesGood(scene.book, sale, seller.id) : accept(null);
    if (!licensed.ok) return licensed;
    const goods = goodsById(scene.book, row.value.goodsId);
    const at = { saleId: row.value.saleId, sellerId: seller.id, lotId };
    const within = goods ? decideSeason(scene.book, at, { goods, count: row.value.count }) : accept(null);
    if (!within.ok) return { ...within, field: 'sellerNo' };
    scene.book.db.update(lot).set({ sellerId: seller.id, line: scene.line }).where(eq(lot.id, lotId)).run();
    return accept({ lotId, sellerNo });
  },
});

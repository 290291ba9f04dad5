import { problem } from '#app/problem.ts';
import { today } from '#app/today.ts';
import { csvText } from '#db/exchange/csv-text.ts';
import { purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { PURCHASE_COLUMNS, purchaseCells } from '#lib/buyer/purchase-table.ts';
import { buyerScene } from '../../buyer.ts';

/** A buyer's purchase record as RFC 4180 CSV: `?sale=1&buyer=10`. */
export async function GET(request: Request): Promise<Response> {
  const scene = await buyerScene(request);
  if (!scene.ok) return problem(scene, 404);
  const { book, sale, file } = scene.value;
  const name = `purchase-record-${sale.id}-buyer-${file.buyer.buyerNo}.csv`;
  return new Response(csvText(PURCHASE_COLUMNS, purchaseCells(purchaseRecord(file, today(book)))), {
    headers: {
      'content-type': 'text/csv; charset=utf-8; header=present',
      'content-disposition': `attachment; filename="${name}"`,
      'cache-control': 'no-store',
    },
  });
}

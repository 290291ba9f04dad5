import { problem } from '#app/problem.ts';
import { today } from '#app/today.ts';
import { logHead } from '#db/log.ts';
import { purchaseList } from '#lib/buyer/lists.ts';
import { purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { answerPapers } from '../answer.ts';
import { buyerScene } from '../buyer.ts';

/** A buyer's purchase record: `?sale=1&buyer=10`. */
export async function GET(request: Request): Promise<Response> {
  const scene = await buyerScene(request);
  if (!scene.ok) return problem(scene, 404);
  const { book, sale, file } = scene.value;
  const papers = [purchaseList(purchaseRecord(file, today(book)), logHead(book))];
  const name = `purchase-record-${sale.id}-buyer-${file.buyer.buyerNo}`;
  return answerPapers({ book, papers, name, none: 'There is nothing to print.' });
}

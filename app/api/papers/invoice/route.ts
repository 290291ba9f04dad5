import { problem } from '#app/problem.ts';
import { today } from '#app/today.ts';
import { issuedInvoices, previewInvoice } from '#db/queries/invoices.ts';
import { invoiceList } from '#lib/buyer/lists.ts';
import { answerPapers } from '../answer.ts';
import { type BuyerScene, buyerScene } from '../buyer.ts';

/**
 * A buyer's invoice: `?sale=1&buyer=10` the newest issued, or a preview where there is none; `&number=3` that one of
 * theirs; `&preview=yes` as it would be issued now.
 */
export async function GET(request: Request): Promise<Response> {
  const scene = await buyerScene(request);
  if (!scene.ok) return problem(scene, 404);
  const { book, sale, file } = scene.value;
  const papers = invoicesOf(scene.value).map(invoiceList);
  const name = `invoice-${sale.id}-buyer-${file.buyer.buyerNo}`;
  return answerPapers({ book, papers, name, none: 'This buyer has no invoice of this number.' });
}

function invoicesOf({ book, sale, file, word }: BuyerScene) {
  const issued = issuedInvoices(book, sale.id, { buyerNo: file.buyer.buyerNo });
  const number = word('number');
  if (number !== null) return issued.filter((one) => String(one.number) === number).map(({ invoice }) => invoice);
  const newest = issued.at(-1)?.invoice;
  if (newest && word('preview') !== 'yes') return [newest];
  return [previewInvoice(book, { file, before: newest }, today(book))];
}

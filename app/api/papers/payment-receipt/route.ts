import { staffBook } from '#app/caller.ts';
import { problem } from '#app/problem.ts';
import { logHead } from '#db/log.ts';
import { buyerFile } from '#db/queries/buyer-files.ts';
import { buyerPayment } from '#db/queries/buyer-papers.ts';
import { timeZoneOf } from '#db/queries/local-days.ts';
import { receiptList } from '#lib/buyer/lists.ts';
import { receiptPaper } from '#lib/buyer/receipt.ts';
import { localDay, localTime } from '#lib/local-day.ts';
import { refuse } from '#lib/result.ts';
import { answerPapers } from '../answer.ts';

/** The receipt of one payment of a buyer: `?payment=37`. */
export async function GET(request: Request): Promise<Response> {
  const allowed = await staffBook(['till']);
  if (!allowed.ok) return problem(allowed);
  const book = allowed.value;
  const id = new URL(request.url).searchParams.get('payment') ?? '';
  const paid = /^\d{1,9}$/.test(id) ? buyerPayment(book, Number.parseInt(id, 10)) : undefined;
  const file = paid && buyerFile(book, paid.saleId, paid.buyerNo);
  if (!paid || !file) return problem(refuse('unknown', 'There is no such payment of a buyer.', 'payment'), 404);
  const timeZone = timeZoneOf(book);
  const when = { paidOn: localDay(paid.paidAt, timeZone), paidTime: localTime(paid.paidAt, timeZone) };
  const papers = [receiptList(receiptPaper(file, { ...paid, ...when }), logHead(book))];
  return answerPapers({ book, papers, name: `receipt-payment-${paid.paymentId}`, none: 'There is nothing to print.' });
}

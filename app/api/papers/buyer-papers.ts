import 'server-only';
import { staffBook } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { problem } from '#app/server/problem.ts';
import type { SaleRow } from '#db/book/find.ts';
import { logHead } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { buyerFile, buyerPayment } from '#db/buyer/files.ts';
import { csvText } from '#db/exchange/csv.ts';
import { issuedInvoices, previewInvoice } from '#db/invoice/queries.ts';
import { saleOfAddress, timeZoneOf } from '#db/sale/queries.ts';
import type { BuyerFile } from '#lib/buyer/buyer.ts';
import { invoiceList, purchaseList, receiptList } from '#lib/buyer/lists.ts';
import { PURCHASE_COLUMNS, purchaseCells, purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { localDay, localTime } from '#lib/date/local-day.ts';
import { receiptPaper } from '#lib/invoice/paper.ts';
import { type Result, refuse } from '#lib/result/result.ts';
import { answerPapers } from './answer.ts';

/** What a paper of one buyer is made from. */
interface BuyerScene {
  readonly book: Book;
  readonly sale: SaleRow;
  readonly file: BuyerFile;
  /** A word of the address, or null. */
  readonly word: (name: string) => string | null;
}

/** The buyer that an address names, as in `?sale=1&buyer=10`; a refusal where there is no such sale or buyer. */
async function buyerScene(request: Request): Promise<Result<BuyerScene>> {
  const allowed = await staffBook();
  if (!allowed.ok) return allowed;
  const book = allowed.value;
  const words = new URL(request.url).searchParams;
  const word = (name: string) => words.get(name);
  const sale = saleOfAddress(book, word('sale') ?? undefined);
  if (!sale) return refuse('unknown', 'There is no such sale in the book.', 'sale');
  const buyerNo = /^\d{1,5}$/.test(word('buyer') ?? '') ? Number.parseInt(word('buyer') ?? '', 10) : 0;
  const file = buyerFile(book, sale.id, buyerNo);
  if (!file) return refuse('unknown', 'There is no such buyer number in this sale.', 'buyer');
  return { ok: true, value: { book, sale, file, word } };
}

/**
 * A buyer's invoice: `?sale=1&buyer=10` the newest issued, or a preview where there is none; `&number=3` that one of
 * theirs; `&preview=yes` as it would be issued now.
 */
export async function invoicePaper(request: Request): Promise<Response> {
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

/** A buyer's purchase record: `?sale=1&buyer=10`. */
export async function purchaseRecordPaper(request: Request): Promise<Response> {
  const scene = await buyerScene(request);
  if (!scene.ok) return problem(scene, 404);
  const { book, sale, file } = scene.value;
  const papers = [purchaseList(purchaseRecord(file, today(book)), logHead(book))];
  const name = `purchase-record-${sale.id}-buyer-${file.buyer.buyerNo}`;
  return answerPapers({ book, papers, name, none: 'There is nothing to print.' });
}

/** A buyer's purchase record as RFC 4180 CSV: `?sale=1&buyer=10`. */
export async function purchaseRecordCsv(request: Request): Promise<Response> {
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

/** The receipt of one payment of a buyer: `?payment=37`. */
export async function paymentReceiptPaper(request: Request): Promise<Response> {
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

import 'server-only';
import { numberIn, type Route, type SaleRequest, saleRoute, staffRoute } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { CSV_TYPE, fileResponse, notFoundProblem } from '#app/server/responses.ts';
import { CONTACT_STATIONS } from '#db/book/command.ts';
import { logHead } from '#db/book/log.ts';
import { buyerFile, buyerPayment } from '#db/buyer/files.ts';
import { csvText } from '#db/exchange/csv.ts';
import { issuedInvoices, previewInvoice } from '#db/invoice/queries.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import type { BuyerFile } from '#lib/buyer/buyer.ts';
import { invoiceList, purchaseList, receiptList } from '#lib/buyer/lists.ts';
import { PURCHASE_COLUMNS, purchaseCells, purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { localDay, timeInWords } from '#lib/date/date.ts';
import { receiptPaper } from '#lib/invoice/paper.ts';
import { answerPapers } from './answer.ts';

interface BuyerRequest extends SaleRequest {
  readonly file: BuyerFile;
}

/** A paper of the buyer that the address names, as in `?sale=1&buyer=10`. */
function buyerRoute(answer: (asked: BuyerRequest) => Response | Promise<Response>): Route {
  return saleRoute(CONTACT_STATIONS, (asked) => {
    const file = buyerFile(asked.book, asked.sale.id, numberIn(asked.word('buyer')));
    return file ? answer({ ...asked, file }) : notFoundProblem('There is no such buyer number in this sale.', 'buyer');
  });
}

const nameOf = (paper: string, { sale, file }: BuyerRequest) => `${paper}-${sale.id}-buyer-${file.buyer.buyerNo}`;

/**
 * A buyer's invoice: `?sale=1&buyer=10` the newest issued, or a preview where there is none; `&number=3` that one of
 * theirs; `&preview=yes` as it would be issued now.
 */
export const buyerInvoicePaper = buyerRoute((asked) => {
  const papers = invoicesOf(asked).map(invoiceList);
  const none = 'This buyer has no invoice of this number.';
  return answerPapers({ book: asked.book, papers, name: nameOf('invoice', asked), none });
});

function invoicesOf({ book, sale, file, word }: BuyerRequest) {
  const issued = issuedInvoices(book, sale.id, { buyerNo: file.buyer.buyerNo });
  const number = word('number');
  if (number !== undefined) return issued.filter((one) => String(one.number) === number).map(({ invoice }) => invoice);
  const newest = issued.at(-1)?.invoice;
  if (newest && word('preview') !== 'yes') return [newest];
  return [previewInvoice(book, { file, before: newest }, today(book))];
}

/** A buyer's purchase record: `?sale=1&buyer=10`. */
export const purchaseRecordPaper = buyerRoute((asked) => {
  const { book, file } = asked;
  const papers = [purchaseList(purchaseRecord(file, today(book)), logHead(book))];
  return answerPapers({ book, papers, name: nameOf('purchase-record', asked), none: 'There is nothing to print.' });
});

/** A buyer's purchase record as RFC 4180 CSV: `?sale=1&buyer=10`. */
export const purchaseRecordCsv = buyerRoute((asked) => {
  const text = csvText(PURCHASE_COLUMNS, purchaseCells(purchaseRecord(asked.file, today(asked.book))));
  return fileResponse(text, { name: `${nameOf('purchase-record', asked)}.csv`, type: CSV_TYPE });
});

/** The receipt of one payment of a buyer: `?payment=37`. */
export const paymentReceiptPaper = staffRoute(['till'], ({ book, word }) => {
  const paid = buyerPayment(book, numberIn(word('payment'), 9));
  const file = paid && buyerFile(book, paid.saleId, paid.buyerNo);
  if (!paid || !file) return notFoundProblem('There is no such payment of a buyer.', 'payment');
  const timeZone = timeZoneOf(book);
  const when = { paidOn: localDay(paid.paidAt, timeZone), paidTime: timeInWords(paid.paidAt, timeZone) };
  const papers = [receiptList(receiptPaper(file, { ...paid, ...when }), logHead(book))];
  return answerPapers({ book, papers, name: `receipt-payment-${paid.paymentId}`, none: 'There is nothing to print.' });
});

/** The printed papers, each under its own address: `/api/papers/receipt?sale=1&seller=3`. */
import type { Route } from '#app/request/caller.ts';
import { notFoundProblem } from '#app/server/responses.ts';
import { bankReconciliation, bankReconciliationCsv } from '../bank-papers.ts';
import { buyerInvoicePaper, paymentReceiptPaper, purchaseRecordCsv, purchaseRecordPaper } from '../buyer-papers.ts';
import { joinCardPaper } from '../hall-papers.ts';
import { payoutPaper, sellerReceiptPaper, settlementSheets } from '../payout-papers.ts';
import {
  bidSheetsPaper,
  bidSlipsPaper,
  blockSheetPaper,
  receiptOfGoodsPaper,
  resultsPaper,
  saleListPaper,
  tagListPaper,
  ticketsPaper,
} from '../sale-papers.ts';
import { yearCsv, yearPdf } from '../year-papers.ts';

const PAPERS: Readonly<Record<string, Route>> = {
  'bank-reconciliation': bankReconciliation,
  'bank-reconciliation/csv': bankReconciliationCsv,
  'bid-sheets': bidSheetsPaper,
  'bid-slips': bidSlipsPaper,
  'block-sheet': blockSheetPaper,
  invoice: buyerInvoicePaper,
  'join-card': joinCardPaper,
  'payment-receipt': paymentReceiptPaper,
  'purchase-record': purchaseRecordPaper,
  'purchase-record/csv': purchaseRecordCsv,
  receipt: receiptOfGoodsPaper,
  results: resultsPaper,
  'sale-list': saleListPaper,
  'seller-receipt': sellerReceiptPaper,
  sheets: settlementSheets,
  'tag-list': tagListPaper,
  tickets: ticketsPaper,
  'year-by-person': yearPdf('year-by-person'),
  'year-by-person/csv': yearCsv('year-by-person'),
  'sales-tax': yearPdf('sales-tax'),
  'sales-tax/csv': yearCsv('sales-tax'),
  'large-cash': yearPdf('large-cash'),
  'large-cash/csv': yearCsv('large-cash'),
};

type Params = Promise<{ readonly paper: readonly string[] }>;

export async function GET(request: Request, { params }: { readonly params: Params }): Promise<Response> {
  const [first = '', ...rest] = (await params).paper;
  if (first === 'payout') return payoutPaper(rest.join('/'))(request);
  const name = [first, ...rest].join('/');
  const draw = Object.hasOwn(PAPERS, name) ? PAPERS[name] : undefined;
  return draw ? draw(request) : notFoundProblem('There is no such paper.', 'paper');
}

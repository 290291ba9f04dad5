/** The printed papers, each under its own address: `/api/papers/receipt?sale=1&seller=3`. */
import { problem } from '#app/server/problem.ts';
import { refuse } from '#lib/result/result.ts';
import { invoicePaper, paymentReceiptPaper, purchaseRecordCsv, purchaseRecordPaper } from '../buyer-papers.ts';
import { payoutPaper, settlementSheets } from '../payout-papers.ts';
import {
  bidSheetsPaper,
  blockSheetPaper,
  receiptOfGoodsPaper,
  resultsPaper,
  saleListPaper,
  tagListPaper,
  ticketsPaper,
} from '../sale-papers.ts';

type Draw = (request: Request) => Promise<Response>;

const PAPERS: Readonly<Record<string, Draw>> = {
  'bid-sheets': bidSheetsPaper,
  'block-sheet': blockSheetPaper,
  invoice: invoicePaper,
  'payment-receipt': paymentReceiptPaper,
  'purchase-record': purchaseRecordPaper,
  'purchase-record/csv': purchaseRecordCsv,
  receipt: receiptOfGoodsPaper,
  results: resultsPaper,
  'sale-list': saleListPaper,
  sheets: settlementSheets,
  'tag-list': tagListPaper,
  tickets: ticketsPaper,
};

interface Context {
  readonly params: Promise<{ readonly paper: readonly string[] }>;
}

export async function GET(request: Request, { params }: Context): Promise<Response> {
  const [first = '', ...rest] = (await params).paper;
  if (first === 'payout') return payoutPaper(request, rest.join('/'));
  const draw = Object.hasOwn(PAPERS, [first, ...rest].join('/')) ? PAPERS[[first, ...rest].join('/')] : undefined;
  return draw ? draw(request) : problem(refuse('unknown', 'There is no such paper.', 'paper'), 404);
}

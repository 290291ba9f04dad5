import { theBook } from '#app/book.ts';
import { problem } from '#app/problem.ts';
import type { Book } from '#db/open.ts';
import { saleOfAddress } from '#db/queries/sales.ts';
import { issuedSheets, previewSheet } from '#db/queries/sheets.ts';
import { refuse } from '#lib/result.ts';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import { answerPapers } from '../answer.ts';

/**
 * Settlement sheets as one PDF: `?sale=1` every issued sheet of a sale, `&seller=3` that seller number's newest, or
 * a preview where it has none.
 */
export async function GET(request: Request): Promise<Response> {
  const book = await theBook();
  const words = new URL(request.url).searchParams;
  const sale = saleOfAddress(book, words.get('sale') ?? undefined);
  if (!sale) return problem(refuse('unknown', 'There is no such sale in the book.', 'sale'), 404);
  const seller = words.get('seller');
  const sheets = seller === null ? allIssued(book, sale.id) : sheetOf(book, sale.id, seller);
  const name = seller === null ? `settlement-sheets-${sale.id}` : `settlement-sheet-${sale.id}-seller-${seller}`;
  return answerPapers({ book, papers: sheets, name, none: 'There is no sheet to print yet: issue it first.' });
}

function allIssued(book: Book, saleId: number): SettlementSheet[] {
  return issuedSheets(book, saleId).map(({ sheet }) => sheet);
}

function sheetOf(book: Book, saleId: number, seller: string): SettlementSheet[] {
  if (!/^\d{1,5}$/.test(seller)) return [];
  const sellerNo = Number.parseInt(seller, 10);
  const newest = issuedSheets(book, saleId).findLast((issued) => issued.sellerNo === sellerNo);
  const sheet = newest?.sheet ?? previewSheet(book, { saleId, sellerNo }, new Date().toISOString().slice(0, 10));
  return sheet ? [sheet] : [];
}

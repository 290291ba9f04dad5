import { theBook } from '#app/book.ts';
import { renderSheets } from '#app/papers/render.ts';
import { problem } from '#app/problem.ts';
import type { Book } from '#db/open.ts';
import { saleOfAddress, theAssociation } from '#db/queries/sales.ts';
import { issuedSheets, previewSheet } from '#db/queries/sheets.ts';
import { refuse } from '#lib/result.ts';
import type { SettlementSheet } from '#lib/sheet/model.ts';

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
  if (sheets.length === 0) return problem(refuse('unknown', 'There is no sheet to print yet: issue it first.'), 404);
  const bytes = await renderSheets(sheets, { size: theAssociation(book)?.paper === 'a4' ? 'a4' : 'letter' });
  const name =
    seller === null ? `settlement-sheets-${sale.id}.pdf` : `settlement-sheet-${sale.id}-seller-${seller}.pdf`;
  return new Response(new Uint8Array(bytes), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${name}"`,
      'cache-control': 'no-store',
    },
  });
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

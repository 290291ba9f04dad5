import { staffBook } from '#app/caller.ts';
import type { Paper } from '#app/papers/kinds.ts';
import { problem } from '#app/problem.ts';
import { today } from '#app/today.ts';
import type { Book } from '#db/open.ts';
import { saleOfAddress } from '#db/queries/sales.ts';
import { type IssuedSheet, issuedSheets, newestSheets, previewSheet, sheetsOfSeller } from '#db/queries/sheets.ts';
import { asPrinted } from '#lib/payout/correction.ts';
import { refuse } from '#lib/result.ts';
import { answerPapers } from '../answer.ts';

/**
 * Settlement sheets as one PDF: `?sale=1` the newest issued sheet of every seller number, `&seller=3` that number's
 * newest or a preview where it has none, `&number=7` one sheet by its number. A correction sheet comes with what has
 * changed in front of it. `&watch=KEY` lets a page ask how far the drawing is.
 */
export async function GET(request: Request): Promise<Response> {
  const allowed = await staffBook(['payout']);
  if (!allowed.ok) return problem(allowed);
  const book = allowed.value;
  const words = new URL(request.url).searchParams;
  const sale = saleOfAddress(book, words.get('sale') ?? undefined);
  if (!sale) return problem(refuse('unknown', 'There is no such sale in the book.', 'sale'), 404);
  const { papers, name } = chosen(book, sale.id, words);
  return answerPapers({ book, papers, name, none: 'There is no sheet to print yet: issue it first.', request });
}

function chosen(book: Book, saleId: number, words: URLSearchParams): { papers: Paper[]; name: string } {
  const [seller, number] = [words.get('seller'), words.get('number')];
  if (number !== null) {
    const papers = issuedSheets(book, saleId).filter((issued) => String(issued.number) === number);
    return { papers: papers.flatMap(papersOf), name: `settlement-sheet-${saleId}-number-${whole(number)}` };
  }
  if (seller !== null) {
    const sellerNo = whole(seller);
    return { papers: ofSeller(book, saleId, sellerNo), name: `settlement-sheet-${saleId}-seller-${sellerNo}` };
  }
  const newest = newestSheets(issuedSheets(book, saleId));
  return { papers: [...newest.values()].flatMap(papersOf), name: `settlement-sheets-${saleId}` };
}

function ofSeller(book: Book, saleId: number, sellerNo: number): Paper[] {
  const newest = sheetsOfSeller(book, saleId, sellerNo).at(-1);
  if (newest) return papersOf(newest);
  const preview = previewSheet(book, { saleId, sellerNo }, today(book));
  return preview ? [preview] : [];
}

function papersOf(issued: IssuedSheet): Paper[] {
  const { sheet, report } = asPrinted(issued);
  return report ? [report, sheet] : [sheet];
}

/** A number out of an address, or 0, which nobody has. */
function whole(text: string): number {
  return /^\d{1,5}$/.test(text) ? Number.parseInt(text, 10) : 0;
}

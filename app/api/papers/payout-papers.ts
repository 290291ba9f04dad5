import type { Paper } from '#app/papers/kinds.ts';
import { staffBook } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { problem } from '#app/server/problem.ts';
import type { Book } from '#db/book/open.ts';
import { saleOfAddress } from '#db/sale/queries.ts';
import { payoutPapers } from '#db/settlement/papers.ts';
import { type IssuedSheet, issuedSheets, newestSheets, previewSheet, sheetsOfSeller } from '#db/settlement/sheets.ts';
import { refuse } from '#lib/result/result.ts';
import { asPrinted } from '#lib/settlement/correction.ts';
import { answerPapers } from './answer.ts';

/**
 * The papers of payout as PDF: `check-register`, `check-stubs` (`&check=1041` for one), `balance`, `closing-report`,
 * `kept`, `agency-return`, `held-over`; `?sale=1` names the sale.
 */
export async function payoutPaper(request: Request, paper: string): Promise<Response> {
  const allowed = await staffBook(['payout']);
  if (!allowed.ok) return problem(allowed);
  const book = allowed.value;
  const words = new URL(request.url).searchParams;
  const sale = saleOfAddress(book, words.get('sale') ?? undefined);
  if (!sale) return problem(refuse('unknown', 'There is no such sale in the book.', 'sale'), 404);
  const papers = payoutPapers(book, sale, { paper, drawnOn: today(book), check: words.get('check') });
  if (!papers) return problem(refuse('unknown', 'There is no such paper.', 'paper'), 404);
  const none = 'There is nothing to print yet.';
  return answerPapers({ book, papers, name: `${paper}-${sale.id}`, none, request });
}

/**
 * Settlement sheets as one PDF: `?sale=1` the newest issued sheet of every seller number, `&seller=3` that number's
 * newest or a preview where it has none, `&number=7` one sheet by its number. A correction sheet comes with what has
 * changed in front of it. `&watch=KEY` lets a page ask how far the drawing is.
 */
export async function settlementSheets(request: Request): Promise<Response> {
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

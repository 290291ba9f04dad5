import type { Paper } from '#app/papers/kinds.ts';
import { numberIn, type SaleRequest, saleRoute, staffRoute } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { notFoundProblem } from '#app/server/responses.ts';
import { saleById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { paperGround } from '#db/lot/papers.ts';
import { sellerPayment } from '#db/payment/receipts.ts';
import { payoutPapers } from '#db/settlement/papers.ts';
import { type IssuedSheet, issuedSheets, newestSheets, previewSheet, sheetsOfSeller } from '#db/settlement/sheets.ts';
import { sellerReceipt } from '#lib/payment/seller-receipt.ts';
import { asPrinted } from '#lib/settlement/correction.ts';
import { answerPapers } from './answer.ts';

/**
 * The papers of payout as PDF: `check-register`, `check-stubs` (`&check=1041` for one), `deposit-slip`
 * (`&deposit=3` for one), `balance`, `closing-report`,
 * `kept`, `agency-return`, `held-over`.
 */
export const payoutPaper = (paper: string) =>
  saleRoute(['payout'], ({ book, sale, word, request }) => {
    const papers = payoutPapers(book, sale, {
      paper,
      drawnOn: today(book),
      check: word('check') ?? null,
      deposit: word('deposit') ?? null,
    });
    if (!papers) return notFoundProblem('There is no such paper.', 'paper');
    const none = 'There is nothing to print yet.';
    return answerPapers({ book, papers, name: `${paper}-${sale.id}`, none, request });
  });

/** The receipt of one payment to or from a seller number: `?payment=37`. */
export const sellerReceiptPaper = staffRoute(['payout'], ({ book, word }) => {
  const paid = sellerPayment(book, numberIn(word('payment'), 9));
  const sale = paid && saleById(book, paid.saleId);
  if (!paid || !sale) return notFoundProblem('There is no such payment of a seller number.', 'payment');
  const papers = [sellerReceipt(paperGround(book, sale, today(book)), paid)];
  return answerPapers({ book, papers, name: `receipt-payment-${paid.paymentId}`, none: 'There is nothing to print.' });
});

/**
 * Settlement sheets as one PDF: `?sale=1` the newest issued sheet of every seller number, `&seller=3` that number's
 * newest or a preview where it has none, `&number=7` one sheet by its number. A correction sheet comes with what has
 * changed in front of it. `&watch=KEY` lets a page ask how far the drawing is.
 */
export const settlementSheets = saleRoute(['payout'], (asked) => {
  const { book, request } = asked;
  const none = 'There is no sheet to print yet: issue it first.';
  return answerPapers({ book, ...chosen(asked), none, request });
});

function chosen({ book, sale: { id: saleId }, word }: SaleRequest): { papers: Paper[]; name: string } {
  const [seller, number] = [word('seller'), word('number')];
  if (number !== undefined) {
    const papers = issuedSheets(book, saleId).filter((issued) => String(issued.number) === number);
    return { papers: papers.flatMap(papersOfSheet), name: `settlement-sheet-${saleId}-number-${numberIn(number)}` };
  }
  if (seller !== undefined) {
    const sellerNo = numberIn(seller);
    return { papers: ofSeller(book, saleId, sellerNo), name: `settlement-sheet-${saleId}-seller-${sellerNo}` };
  }
  const newest = newestSheets(issuedSheets(book, saleId));
  return { papers: [...newest.values()].flatMap(papersOfSheet), name: `settlement-sheets-${saleId}` };
}

function ofSeller(book: Book, saleId: number, sellerNo: number): Paper[] {
  const newest = sheetsOfSeller(book, saleId, sellerNo).at(-1);
  if (newest) return papersOfSheet(newest);
  const preview = previewSheet(book, { saleId, sellerNo }, today(book));
  return preview ? [preview] : [];
}

/** An issued sheet; a correction sheet with its report in front. */
export function papersOfSheet(issued: IssuedSheet): Paper[] {
  const { sheet, report } = asPrinted(issued);
  return report ? [report, sheet] : [sheet];
}

import 'server-only';
import { type Route, staffRoute } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { CSV_TYPE, fileResponse, notFoundProblem } from '#app/server/responses.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { isYear, YEAR_STATIONS, type YearPaper, yearFile, yearPaper } from '#db/report/year.ts';
import { saleOfAddress } from '#db/sale/queries.ts';
import { answerPapers } from './answer.ts';

interface Asked {
  readonly book: Book;
  readonly of: string | SaleRow;
  /** The name of the file, without its ending. */
  readonly name: string;
}

/** A list of the year that the address names, as in `?year=2026`; the sales tax also of one sale, as in `?sale=1`. */
function yearRoute(paper: YearPaper, answer: (asked: Asked) => Response | Promise<Response>): Route {
  return staffRoute(YEAR_STATIONS, ({ book, word }) => {
    const [year, named] = [word('year') ?? '', word('sale')];
    if (isYear(year)) return answer({ book, of: year, name: `${paper}-${year}` });
    const sale = paper === 'sales-tax' && named !== undefined ? saleOfAddress(book, named) : undefined;
    if (sale) return answer({ book, of: sale, name: `${paper}-sale-${sale.id}` });
    return notFoundProblem('Say of which year, such as 2026.', 'year');
  });
}

export const yearPdf = (paper: YearPaper) =>
  yearRoute(paper, ({ book, of, name }) => {
    const papers = [yearPaper(book, { paper, of }, today(book))];
    return answerPapers({ book, papers, name, none: 'There is nothing to print.' });
  });

export const yearCsv = (paper: YearPaper) =>
  yearRoute(paper, ({ book, of, name }) =>
    fileResponse(yearFile(book, { paper, of }), { name: `${name}.csv`, type: CSV_TYPE }),
  );

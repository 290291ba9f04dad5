import { saleRoute } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { CSV_TYPE, fileResponse, notFoundProblem } from '#app/server/responses.ts';
import { folderTexts, zipFolder } from '#db/exchange/export-sale.ts';
import { payoutFile } from '#db/settlement/papers.ts';

/** The exchange folder in one file; the others are named in `payoutFile`. */
const WHOLE_SALE = 'exchange_folder.zip';

/** The files of payout and of the time after a sale, by name. */
export function GET(
  request: Request,
  { params }: { readonly params: Promise<{ readonly file: string }> },
): Promise<Response> {
  return saleRoute(['payout'], async ({ book, sale }) => {
    const { file } = await params;
    const name = `sale-${sale.id}-${file}`;
    const drawnOn = today(book);
    if (file === WHOLE_SALE) {
      return fileResponse(zipFolder(folderTexts(book, sale.id), drawnOn), { name, type: 'application/zip' });
    }
    const text = payoutFile(book, sale, { file, drawnOn });
    if (text === undefined) return notFoundProblem('There is no such file.', 'file');
    return fileResponse(text, { name, type: file.endsWith('.csv') ? CSV_TYPE : 'text/plain; charset=utf-8' });
  })(request);
}

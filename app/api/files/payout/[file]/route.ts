import { staffBook } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { problem } from '#app/server/problem.ts';
import { folderTexts, zipFolder } from '#db/exchange/export-sale.ts';
import { saleOfAddress } from '#db/sale/queries.ts';
import { payoutFile } from '#db/settlement/papers.ts';
import { refuse } from '#lib/result/result.ts';

/** The exchange folder in one file; the others are named in `payoutFile`. */
const WHOLE_SALE = 'exchange_folder.zip';

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** The files of payout and of the time after a sale, by name: `?sale=1` names the sale. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const allowed = await staffBook(['payout']);
  if (!allowed.ok) return problem(allowed);
  const book = allowed.value;
  const sale = saleOfAddress(book, new URL(request.url).searchParams.get('sale') ?? undefined);
  if (!sale) return problem(refuse('unknown', 'There is no such sale in the book.', 'sale'), 404);
  const { file } = await params;
  if (file === WHOLE_SALE) {
    return saved(zipFolder(folderTexts(book, sale.id), today(book)), {
      name: `sale-${sale.id}-${file}`,
      type: 'application/zip',
    });
  }
  const text = payoutFile(book, sale, { file, drawnOn: today(book) });
  if (text === undefined) return problem(refuse('unknown', 'There is no such file.', 'file'), 404);
  const type = file.endsWith('.csv') ? 'text/csv; charset=utf-8; header=present' : 'text/plain; charset=utf-8';
  return saved(text, { name: `sale-${sale.id}-${file}`, type });
}

function saved(body: BodyInit, { name, type }: { readonly name: string; readonly type: string }): Response {
  const disposition = `attachment; filename="${name}"`;
  return new Response(body, {
    headers: { 'content-type': type, 'content-disposition': disposition, 'cache-control': 'no-store' },
  });
}

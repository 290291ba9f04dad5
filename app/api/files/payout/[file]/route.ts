import { staffBook } from '#app/caller.ts';
import { problem } from '#app/problem.ts';
import { today } from '#app/today.ts';
import { payoutFile } from '#db/queries/payout-files.ts';
import { saleOfAddress } from '#db/queries/sales.ts';
import { refuse } from '#lib/result.ts';

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
  const text = payoutFile(book, sale, { file, drawnOn: today() });
  if (text === undefined) return problem(refuse('unknown', 'There is no such file.', 'file'), 404);
  const type = file.endsWith('.csv') ? 'text/csv; charset=utf-8; header=present' : 'text/plain; charset=utf-8';
  return new Response(text, {
    headers: {
      'content-type': type,
      'content-disposition': `attachment; filename="sale-${sale.id}-${file}"`,
      'cache-control': 'no-store',
    },
  });
}

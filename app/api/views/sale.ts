import 'server-only';
import { theBook } from '#app/book.ts';
import type { Book } from '#db/open.ts';
import type { SaleRow } from '#db/queries/find.ts';
import { saleOfAddress } from '#db/queries/sales.ts';

/** Answers with a view of the sale that the address names, as JSON that nobody keeps. */
export async function answerView(request: Request, draw: (book: Book, sale: SaleRow) => unknown): Promise<Response> {
  const book = await theBook();
  const sale = saleOfAddress(book, new URL(request.url).searchParams.get('sale') ?? undefined);
  const headers = { 'cache-control': 'no-store' };
  const view = sale ? draw(book, sale) : null;
  return Response.json(view, { status: view === null ? 404 : 200, headers });
}

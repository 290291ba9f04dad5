import 'server-only';
import { theBook } from '#app/book.ts';
import { callerAt } from '#app/caller.ts';
import { problem } from '#app/problem.ts';
import type { Station } from '#db/command.ts';
import type { Book } from '#db/open.ts';
import type { SaleRow } from '#db/queries/find.ts';
import { saleOfAddress } from '#db/queries/sales.ts';

type Draw = (book: Book, sale: SaleRow) => unknown;

/** Answers those stations with a view of the sale that the address names; every worker where none is named. */
export async function answerView(request: Request, draw: Draw, stations?: readonly Station[]): Promise<Response> {
  const caller = await callerAt(stations);
  return caller.ok ? answerHall(request, draw) : problem(caller);
}

/** Answers everybody in the hall with a view of the sale, as JSON that nobody keeps. */
export async function answerHall(request: Request, draw: Draw): Promise<Response> {
  const book = await theBook();
  const sale = saleOfAddress(book, new URL(request.url).searchParams.get('sale') ?? undefined);
  const headers = { 'cache-control': 'no-store' };
  const view = sale ? draw(book, sale) : null;
  return Response.json(view, { status: view === null ? 404 : 200, headers });
}

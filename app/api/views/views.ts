import 'server-only';
import { z } from 'zod';
import { theBook } from '#app/request/book.ts';
import { callerAt, staffBook } from '#app/request/caller.ts';
import { readJson } from '#app/server/body.ts';
import { problem } from '#app/server/problem.ts';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import type { Station } from '#db/book/command.ts';
import { refusalOf } from '#db/book/door.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { lotListView } from '#db/lot/list.ts';
import { lotCard } from '#db/lot/queries.ts';
import { leftView } from '#db/outcome/bids.ts';
import { blockView } from '#db/outcome/block-view.ts';
import { boardView } from '#db/outcome/board-view.ts';
import { writtenView } from '#db/outcome/written-view.ts';
import { findPeople } from '#db/person/queries.ts';
import { saleOfAddress } from '#db/sale/queries.ts';
import { parseLotNo } from '#lib/lot/number.ts';

type Draw = (book: Book, sale: SaleRow) => unknown;

/** Answers those stations with a view of the sale that the address names; every worker where none is named. */
async function answerView(request: Request, draw: Draw, stations?: readonly Station[]): Promise<Response> {
  const caller = await callerAt(stations);
  return caller.ok ? answerHall(request, draw) : problem(caller);
}

/** Answers everybody in the hall with a view of the sale, as JSON that nobody keeps. */
async function answerHall(request: Request, draw: Draw): Promise<Response> {
  const book = await theBook();
  const sale = saleOfAddress(book, new URL(request.url).searchParams.get('sale') ?? undefined);
  const headers = { 'cache-control': 'no-store' };
  const view = sale ? draw(book, sale) : null;
  return Response.json(view, { status: view === null ? 404 : 200, headers });
}

const cachedBlock = cachedRead(blockView, bySale);

/** The Block's view of a sale, read again whenever the log has grown. */
export function blockOfSale(request: Request): Promise<Response> {
  return answerView(request, cachedBlock, ['block']);
}

const cachedBoard = cachedRead(boardView, bySale);

/** What the hall may see of a sale. */
export function boardOfSale(request: Request): Promise<Response> {
  return answerHall(request, cachedBoard);
}

/** The left bids of a sale, without their prices. */
export function leftBidsOfSale(request: Request): Promise<Response> {
  return answerView(request, leftView);
}

/** The written bids of a sale, read again whenever the log has grown. */
export function writtenBidsOfSale(request: Request): Promise<Response> {
  return answerView(request, writtenView, ['block']);
}

/** One lot of a sale by its number, with what was taken down for it; 404 where there is none. */
export function lotOfSale(request: Request): Promise<Response> {
  const lotNo = parseLotNo(new URL(request.url).searchParams.get('lot') ?? '');
  return answerView(request, (book, sale) => (lotNo.ok ? lotCard(book, sale, lotNo.value) : null));
}

/** The people who fit what is typed into the box at the check-in table. */
export function peopleFound(request: Request): Promise<Response> {
  const text = new URL(request.url).searchParams.get('q') ?? '';
  return answerView(request, (book, sale) => findPeople(book, { text: text.slice(0, 200), sale }));
}

const asked = z.strictObject({
  saleId: z.int(),
  sellerNo: z.int(),
  text: z.string().max(400_000, { error: 'This is too much for one list: divide it.' }),
  keepNumbers: z.boolean(),
});

/** What a pasted list of lots would be, with what is wrong at each cell. Nothing is kept of it. */
export async function lotListRehearsed(request: Request): Promise<Response> {
  const book = await staffBook(['intake']);
  if (!book.ok) return problem(book);
  const read = await readJson(book.value, request);
  if (!read.ok) return problem(read);
  const list = asked.safeParse(read.value);
  if (!list.success) return problem(refusalOf(list.error));
  return Response.json({ ok: true, ...lotListView(book.value, { ...list.data, at: new Date().toISOString() }) });
}

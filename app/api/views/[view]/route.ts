import * as z from 'zod';
import { theBook } from '#app/request/book.ts';
import { callerAt, type Route, saidRoute } from '#app/request/caller.ts';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { jsonResponse, notFoundProblem, problem } from '#app/server/responses.ts';
import { CONTACT_STATIONS, type Station } from '#db/book/command.ts';
import { refusalOf } from '#db/book/door.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { noLot } from '#db/lot/former.ts';
import { lotListView } from '#db/lot/list.ts';
import { lotCard } from '#db/lot/queries.ts';
import { leftView } from '#db/outcome/bids.ts';
import { blockView } from '#db/outcome/block-view.ts';
import { boardView, byPhase } from '#db/outcome/board-view.ts';
import { writtenView } from '#db/outcome/written-view.ts';
import { findPeople } from '#db/person/queries.ts';
import { saleOfAddress } from '#db/sale/queries.ts';
import { parseLotNo } from '#lib/lot/number.ts';
import type { Refusal } from '#lib/result/result.ts';

type View = (book: Book, sale: SaleRow, word: (name: string) => string) => unknown;

/** Why there is nothing to see, where a sentence says more than a 404. */
type Why = (...asked: Parameters<View>) => Refusal;

/** A view of the sale that the address names, for these stations, every worker, or everybody in the hall. */
function viewRoute(view: View, whose: readonly Station[] | 'workers' | 'everybody', none?: Why): Route {
  return async (request) => {
    if (whose !== 'everybody') {
      const caller = await callerAt(whose === 'workers' ? undefined : whose);
      if (!caller.ok) return problem(caller);
    }
    const book = await theBook();
    const words = new URL(request.url).searchParams;
    const sale = saleOfAddress(book, words.get('sale') ?? undefined);
    const found = sale ? view(book, sale, (name) => words.get(name) ?? '') : null;
    if (found === null && sale && none)
      return problem(
        none(book, sale, (name) => words.get(name) ?? ''),
        404,
      );
    return jsonResponse(found, found === null ? 404 : 200);
  };
}

const cachedBoard = cachedRead(boardView, byPhase);

/** What the screens read again whenever the log has grown: `/api/views/block?sale=1`. */
const VIEWS: Readonly<Record<string, Route>> = {
  block: viewRoute(cachedRead(blockView, bySale), ['block']),
  /** What the hall may see of a sale. */
  board: viewRoute((book, sale) => cachedBoard(book, { sale, now: new Date().toISOString() }), 'everybody'),
  /** The left bids, without their prices. */
  left: viewRoute(leftView, 'workers'),
  /** One lot by its number, with what was entered for it; 404 where there is none. */
  lot: viewRoute(
    (book, sale, word) => {
      const lotNo = parseLotNo(word('lot'));
      return lotNo.ok ? lotCard(book, sale, lotNo.value) : null;
    },
    'workers',
    (book, sale, word) => {
      const lotNo = parseLotNo(word('lot'));
      return lotNo.ok ? noLot(book, sale.id, lotNo.value) : lotNo;
    },
  ),
  /** The people who fit what is typed into the box at the check-in table. */
  people: viewRoute((book, sale, word) => findPeople(book, { text: word('q').slice(0, 200), sale }), CONTACT_STATIONS),
  written: viewRoute((book, sale) => writtenView(book, sale, new Date().toISOString()), ['block']),
};

const schema = z.strictObject({
  saleId: z.int(),
  sellerNo: z.int(),
  text: z.string().max(400_000, { error: 'This is too much for one list: divide it.' }),
  keepNumbers: z.boolean(),
});

const POSTED: Readonly<Record<string, Route>> = {
  /** What a pasted list of lots would be, with what is wrong at each cell. Nothing of it is stored. */
  'lot-list': saidRoute({ schema, unread: refusalOf, stations: ['intake'] }, ({ book, said }) =>
    Response.json({ ok: true, ...lotListView(book, { ...said, at: new Date().toISOString() }) }),
  ),
};

/** Answers by one table; a name of the other is told by which method it is asked for. */
function routeOf(own: typeof VIEWS, other: typeof VIEWS, allow: string) {
  return async (request: Request, { params }: { readonly params: Promise<{ readonly view: string }> }) => {
    const { view } = await params;
    if (Object.hasOwn(other, view)) return new Response(null, { status: 405, headers: { allow } });
    const found = Object.hasOwn(own, view) ? own[view] : undefined;
    return found ? found(request) : notFoundProblem('There is no such view.', 'view');
  };
}

export const GET = routeOf(VIEWS, POSTED, 'POST');
export const POST = routeOf(POSTED, VIEWS, 'GET');

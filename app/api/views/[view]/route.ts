/** What the screens read again whenever the log has grown, as JSON: `/api/views/block?sale=1`. */
import { problem } from '#app/server/problem.ts';
import { refuse } from '#lib/result/result.ts';
import {
  blockOfSale,
  boardOfSale,
  leftBidsOfSale,
  lotListRehearsed,
  lotOfSale,
  peopleFound,
  writtenBidsOfSale,
} from '../views.ts';

type Answer = (request: Request) => Promise<Response>;

const READ: Readonly<Record<string, Answer>> = {
  block: blockOfSale,
  board: boardOfSale,
  left: leftBidsOfSale,
  lot: lotOfSale,
  people: peopleFound,
  written: writtenBidsOfSale,
};
const ASKED: Readonly<Record<string, Answer>> = { 'lot-list': lotListRehearsed };

interface Context {
  readonly params: Promise<{ readonly view: string }>;
}

export const GET = (request: Request, { params }: Context) => answer(READ, request, params);
export const POST = (request: Request, { params }: Context) => answer(ASKED, request, params);

async function answer(views: typeof READ, request: Request, params: Context['params']): Promise<Response> {
  const { view } = await params;
  const found = Object.hasOwn(views, view) ? views[view] : undefined;
  return found ? found(request) : problem(refuse('unknown', 'There is no such view.', 'view'), 404);
}

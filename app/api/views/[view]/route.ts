/** What the screens read again whenever the log has grown, as JSON: `/api/views/block?sale=1`. */
import type { Route } from '#app/request/caller.ts';
import { notFoundProblem } from '#app/server/responses.ts';
import { lotListRehearsed, VIEWS } from '../views.ts';

const POSTED: Readonly<Record<string, Route>> = { 'lot-list': lotListRehearsed };

interface Context {
  readonly params: Promise<{ readonly view: string }>;
}

export const GET = (request: Request, { params }: Context) => answer(VIEWS, request, params);
export const POST = (request: Request, { params }: Context) => answer(POSTED, request, params);

async function answer(views: typeof VIEWS, request: Request, params: Context['params']): Promise<Response> {
  const { view } = await params;
  const found = Object.hasOwn(views, view) ? views[view] : undefined;
  return found ? found(request) : notFoundProblem('There is no such view.', 'view');
}

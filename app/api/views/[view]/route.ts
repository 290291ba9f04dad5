/** What the screens read again whenever the log has grown, as JSON: `/api/views/block?sale=1`. */
import type { Route } from '#app/request/caller.ts';
import { notFoundProblem } from '#app/server/responses.ts';
import { lotListRehearsed, VIEWS } from '../views.ts';

const POSTED: Readonly<Record<string, Route>> = {
  'lot-list': lotListRehearsed,
};

interface Context {
  readonly params: Promise<{ readonly view: string }>;
}

export async function GET(request: Request, { params }: Context): Promise<Response> {
  const { view } = await params;
  if (Object.hasOwn(POSTED, view)) return new Response(null, { status: 405, headers: { allow: 'POST' } });
  return answer(VIEWS, request, view);
}

export async function POST(request: Request, { params }: Context): Promise<Response> {
  const { view } = await params;
  if (Object.hasOwn(VIEWS, view)) return new Response(null, { status: 405, headers: { allow: 'GET' } });
  return answer(POSTED, request, view);
}

function answer(views: typeof VIEWS, request: Request, view: string): Response | Promise<Response> {
  const found = Object.hasOwn(views, view) ? views[view] : undefined;
  return found ? found(request) : notFoundProblem('There is no such view.', 'view');
}

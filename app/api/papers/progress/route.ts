import { progressOf, watchOf } from '../progress.ts';

/** How far a paper is that is being drawn under `?watch=KEY`: `{ done, of }`, or null where nothing is drawn. */
export function GET(request: Request): Response {
  const watch = watchOf(request);
  return Response.json(watch === null ? null : progressOf(watch), { headers: { 'cache-control': 'no-store' } });
}

import { progressOf, watchOf } from '#app/api/papers/answer.ts';
import { staffRoute } from '#app/request/caller.ts';
import { jsonResponse } from '#app/server/responses.ts';

/** How far a paper is that is being drawn under `?watch=KEY`: `{ done, of }`, or null where nothing is drawn. */
export const GET = staffRoute(undefined, ({ request }) => {
  const watch = watchOf(request);
  return jsonResponse(watch === null ? null : progressOf(watch));
});

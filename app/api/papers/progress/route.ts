import { progressOf, watchOf } from '#app/api/papers/answer.ts';
import { callerAt } from '#app/request/caller.ts';
import { jsonResponse, problem } from '#app/server/responses.ts';

/** How far a paper is that is being drawn under `?watch=KEY`: `{ done, of }`, or null where nothing is drawn. */
export async function GET(request: Request): Promise<Response> {
  const caller = await callerAt();
  if (!caller.ok) return problem(caller);
  const watch = watchOf(request);
  return jsonResponse(watch === null ? null : progressOf(watch));
}

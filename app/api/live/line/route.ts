import { theBook } from '#app/request/book.ts';
import { jsonResponse } from '#app/server/responses.ts';
import { heardNow } from '#app/server/state.ts';

/** The same as an event says, for a browser that has no shared worker and asks every second. */
export async function GET(): Promise<Response> {
  await theBook();
  return jsonResponse(heardNow());
}

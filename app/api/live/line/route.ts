import { theBook } from '#app/book.ts';
import { heardNow } from '#app/house.ts';

/** The same as an event says, for a browser that has no shared worker and asks every second. */
export async function GET(): Promise<Response> {
  await theBook();
  return Response.json(heardNow(), { headers: { 'cache-control': 'no-store' } });
}

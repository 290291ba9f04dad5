import { theBook } from '#app/book.ts';
import { logHead } from '#db/log.ts';

/** How far the log has come, for a browser that has no shared worker and asks every second. */
export async function GET(): Promise<Response> {
  return Response.json({ line: logHead(await theBook()).seq }, { headers: { 'cache-control': 'no-store' } });
}

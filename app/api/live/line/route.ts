import { theBook } from '#app/book.ts';
import { newestLine } from '#db/log.ts';

/** How far the log has come, for a browser that has no shared worker and asks every second. */
export async function GET(): Promise<Response> {
  return Response.json({ line: newestLine(await theBook()) }, { headers: { 'cache-control': 'no-store' } });
}

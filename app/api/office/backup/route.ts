import { copyNow } from '#app/backups/schedule.ts';
import { theBook } from '#app/request/book.ts';
import { officeAct } from '#app/request/caller.ts';
import { jsonResponse, problem } from '#app/server/responses.ts';

/** Makes a backup now, into each folder that is set. */
export async function POST(request: Request): Promise<Response> {
  const caller = await officeAct(request);
  if (!caller.ok) return problem(caller);
  const book = await theBook();
  const tried = await copyNow(book.file);
  const words = tried.map(({ ok, words: said }) => (ok ? said : `No backup: ${said}`)).join(' ');
  return jsonResponse({ ok: tried.every(({ ok }) => ok), words });
}

import { copyNow } from '#app/backups/schedule.ts';
import { officeRoute } from '#app/request/caller.ts';
import { jsonResponse } from '#app/server/responses.ts';

/** Makes a backup now, into each folder that is set. */
export const POST = officeRoute(async ({ file }) => {
  const tried = await copyNow(file);
  const words = tried.map(({ ok, words: said }) => (ok ? said : `No backup: ${said}`)).join(' ');
  return jsonResponse({ ok: tried.every(({ ok }) => ok), words });
});

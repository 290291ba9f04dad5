import { z } from 'zod';
import { staffBook } from '#app/caller.ts';
import { problem } from '#app/problem.ts';
import { readJson } from '#app/wire.ts';
import { refusalOf } from '#db/door.ts';
import { lotListView } from '#db/queries/lot-list-view.ts';

const asked = z.strictObject({
  saleId: z.int(),
  sellerNo: z.int(),
  text: z.string().max(400_000, { error: 'This is too much for one list: divide it.' }),
  keepNumbers: z.boolean(),
});

/** What a pasted list of lots would be, with what is wrong at each cell. Nothing is kept of it. */
export async function POST(request: Request): Promise<Response> {
  const book = await staffBook(['intake']);
  if (!book.ok) return problem(book);
  const read = await readJson(book.value, request);
  if (!read.ok) return problem(read);
  const list = asked.safeParse(read.value);
  if (!list.success) return problem(refusalOf(list.error));
  return Response.json({ ok: true, ...lotListView(book.value, { ...list.data, at: new Date().toISOString() }) });
}

import { staffBook } from '#app/request/caller.ts';
import { problem } from '#app/server/problem.ts';
import { personFile } from '#db/person/queries.ts';
import { refuse } from '#lib/result/result.ts';

/** Everything that is kept about one person, as JSON: `?person=7`. */
export async function GET(request: Request): Promise<Response> {
  const allowed = await staffBook(['office']);
  if (!allowed.ok) return problem(allowed);
  const book = allowed.value;
  const asked = new URL(request.url).searchParams.get('person') ?? '';
  const file = /^\d{1,9}$/.test(asked) ? personFile(book, Number.parseInt(asked, 10)) : null;
  if (!file) return problem(refuse('unknown', 'This person is not in the book: find them again.'), 404);
  return Response.json(file, {
    headers: { 'cache-control': 'no-store', 'content-disposition': `attachment; filename="person-${asked}.json"` },
  });
}

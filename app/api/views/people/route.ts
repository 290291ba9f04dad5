import { findPeople } from '#db/queries/people.ts';
import { answerView } from '../sale.ts';

/** The people who fit what is typed into the box at the check-in table. */
export function GET(request: Request): Promise<Response> {
  const text = new URL(request.url).searchParams.get('q') ?? '';
  return answerView(request, (book, sale) => findPeople(book, { text: text.slice(0, 200), sale }));
}

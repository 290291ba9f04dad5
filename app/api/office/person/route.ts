import { numberIn, staffRoute } from '#app/request/caller.ts';
import { fileResponse, notFoundProblem } from '#app/server/responses.ts';
import { personFile } from '#db/person/queries.ts';

/** Everything that is stored about one person, as JSON: `?person=7`. */
export const GET = staffRoute(['office'], ({ book, word }) => {
  const asked = word('person');
  const file = personFile(book, numberIn(asked, 9));
  if (!file) return notFoundProblem('This person is not in the book: find them again.');
  return fileResponse(JSON.stringify(file), { name: `person-${asked}.json`, type: 'application/json' });
});

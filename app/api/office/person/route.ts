import { numberIn, staffRoute } from '#app/request/caller.ts';
import { noteLooks } from '#app/request/looks.ts';
import { fileResponse, notFoundProblem } from '#app/server/responses.ts';
import { personFile } from '#db/person/queries.ts';

/** Everything that is stored about one person, as JSON: `?person=7`. Who looked is noted, for Office, Doors. */
export const GET = staffRoute(['office'], async ({ book, word }) => {
  const personId = numberIn(word('person'), 9);
  const file = personFile(book, personId);
  if (!file) return notFoundProblem('This person is not in the book: find them again.');
  await noteLooks(book, 'whole file', [personId]);
  return fileResponse(JSON.stringify(file), { name: `person-${personId}.json`, type: 'application/json' });
});

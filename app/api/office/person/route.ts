import { numberIn, staffRoute } from '#app/request/caller.ts';
import { fileResponse, notFoundProblem } from '#app/server/responses.ts';
import { withSignIns } from '#app/server/session.ts';
import { personById } from '#db/book/find.ts';
import { personFile } from '#db/person/queries.ts';
import { noteHappening } from '#db/sign-in/store.ts';

/** Everything that is stored about one person, as JSON: `?person=7`. Who looked is noted, for Office, Doors. */
export const GET = staffRoute(['office'], async ({ book, caller, word }) => {
  const asked = word('person');
  const file = personFile(book, numberIn(asked, 9));
  if (!file) return notFoundProblem('This person is not in the book: find them again.');
  const who = `${caller.worker}, at ${personById(book, numberIn(asked, 9))?.name}`;
  await withSignIns(book, (store) => noteHappening(store, 'looked at a person', { at: Date.now(), who, device: '' }));
  return fileResponse(JSON.stringify(file), { name: `person-${asked}.json`, type: 'application/json' });
});

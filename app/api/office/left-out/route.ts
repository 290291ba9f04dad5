import { staffRoute } from '#app/request/caller.ts';
import { leadingElsewhere } from '#app/server/lead.ts';
import { CSV_TYPE, fileResponse, notFoundProblem } from '#app/server/responses.ts';
import { leftOutText } from '#db/follow/deposed.ts';

/** The entries of this book that the leading one lacks. */
export const GET = staffRoute(['office'], ({ book }) => {
  const lead = leadingElsewhere();
  if (!lead) return notFoundProblem('This laptop leads its book: nothing is left out.');
  return fileResponse(leftOutText(book, lead), { name: 'not-in-the-leading-book.csv', type: CSV_TYPE });
});

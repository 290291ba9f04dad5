import { sellerFiles } from '#db/queries/sheets.ts';
import { officerList } from '#lib/paper/officer-list.ts';
import { answerLists } from '../lists.ts';

/** The tagged lots of a sale and what holds lots back, for the agency officer's table: `?sale=1`. */
export function GET(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'tag-list',
    none: 'There is no such list.',
    make: ({ book, sale, ground, lots }) => [officerList(ground, lots, sellerFiles(book, sale.id))],
  });
}

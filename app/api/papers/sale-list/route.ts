import { saleList } from '#lib/paper/sale-list.ts';
import { answerLists } from '../lists.ts';

/** The lots of a sale in running order: `?sale=1`. */
export function GET(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'sale-list',
    none: 'There is no lot to list yet.',
    make: ({ ground, lots }) => (lots.length === 0 ? [] : [saleList(ground, lots)]),
  });
}

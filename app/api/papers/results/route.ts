import { resultsSheet } from '#lib/paper/results-sheet.ts';
import { answerLists } from '../lists.ts';

/** What the lots brought, to pin on the wall: `?sale=1`. */
export function GET(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'results',
    none: 'No lot has been called yet.',
    make: ({ ground, lots }) => (lots.some(({ outcome }) => outcome !== null) ? [resultsSheet(ground, lots)] : []),
  });
}

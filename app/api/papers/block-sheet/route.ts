import { blockSheet } from '#lib/paper/block-sheet.ts';
import { answerLists } from '../lists.ts';

/** The lots still to be called with room to write, for a power failure: `?sale=1`. */
export function GET(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'block-sheet',
    none: 'No lot is left to be called.',
    make: ({ ground, lots }) => (lots.some(({ outcome }) => outcome === null) ? [blockSheet(ground, lots)] : []),
  });
}

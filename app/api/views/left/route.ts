import { leftView } from '#db/queries/bids.ts';
import { answerView } from '../sale.ts';

/** The left bids of a sale, without their prices. */
export function GET(request: Request): Promise<Response> {
  return answerView(request, leftView);
}

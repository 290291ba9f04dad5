import { boardView } from '#db/queries/board-view.ts';
import { answerView } from '../sale.ts';

/** What the hall may see of a sale. */
export function GET(request: Request): Promise<Response> {
  return answerView(request, boardView);
}

import { boardView } from '#db/queries/board-view.ts';
import { answerHall } from '../sale.ts';

/** What the hall may see of a sale. */
export function GET(request: Request): Promise<Response> {
  return answerHall(request, boardView);
}

import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { boardView } from '#db/queries/board-view.ts';
import { answerHall } from '../sale.ts';

const cachedBoard = cachedRead(boardView, bySale);

/** What the hall may see of a sale. */
export function GET(request: Request): Promise<Response> {
  return answerHall(request, cachedBoard);
}

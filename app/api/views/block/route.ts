import { blockView } from '#db/queries/block-view.ts';
import { answerView } from '../sale.ts';

/** The Block's view of a sale, read again whenever the log has grown. */
export function GET(request: Request): Promise<Response> {
  return answerView(request, blockView, ['block']);
}

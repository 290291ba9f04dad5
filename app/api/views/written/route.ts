import { writtenView } from '#db/queries/written-view.ts';
import { answerView } from '../sale.ts';

/** The written bids of a sale, read again whenever the log has grown. */
export function GET(request: Request): Promise<Response> {
  return answerView(request, writtenView, ['block']);
}

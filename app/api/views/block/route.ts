import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { blockView } from '#db/queries/block-view.ts';
import { answerView } from '../sale.ts';

const cachedBlock = cachedRead(blockView, bySale);

/** The Block's view of a sale, read again whenever the log has grown. */
export function GET(request: Request): Promise<Response> {
  return answerView(request, cachedBlock, ['block']);
}

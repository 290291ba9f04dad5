import 'server-only';
import { setTimeout as after } from 'node:timers/promises';
import type { Book } from '#db/open.ts';
import { balanceView } from '#db/queries/balance-view.ts';
import { blockView } from '#db/queries/block-view.ts';
import { floorInPieces } from '#db/queries/floor.ts';
import { type InPieces, readOn } from '#db/queries/kept-pieces.ts';
import { heldInPieces } from '#db/queries/lots-held.ts';
import { partiesInPieces } from '#db/queries/parties.ts';
import { payoutView } from '#db/queries/payout-view.ts';
import { saleOfAddress } from '#db/queries/sales.ts';
import { pricedSeasons } from '#db/queries/season-prices.ts';
import { tillView } from '#db/queries/till-view.ts';
import { house } from './house.ts';
import { fewestNow } from './prices-fewest.ts';

/** So long nothing was entered before anything is made ready again: while lots are called one by one, nothing is. */
const QUIET_MS = 3000;
/** Whoever asks something meanwhile has half of the time, and waits for no more than one piece. */
const WORK_MS = 8;
const REST_MS = 8;
const LOOK_MS = 500;

/**
 * Makes ready what the stations show first, before anybody asks, and again whenever the entries have stopped for a
 * moment. Nothing comes of it that a page would not have made itself. Ends when another book is served.
 */
export async function warm(book: Book): Promise<void> {
  let heard = Number.NEGATIVE_INFINITY;
  let wanted = true;
  const listen = () => {
    heard = performance.now();
    wanted = true;
  };
  const isQuiet = () => house().book === book && performance.now() - heard >= QUIET_MS;
  const { bell } = house();
  bell.on('line', listen);
  while (house().book === book) {
    if (wanted && isQuiet()) {
      wanted = false;
      await makeReady(book, isQuiet);
    }
    await after(LOOK_MS, undefined, { ref: false });
  }
  bell.off('line', listen);
}

type Quiet = () => boolean;

/** Leaves off as soon as something is entered: of what that touched, a view that is made at once would make all. */
async function makeReady(book: Book, isQuiet: Quiet): Promise<void> {
  const sale = saleOfAddress(book, undefined);
  if (!sale) return;
  await inRests(book, floorInPieces(book, sale), isQuiet);
  await inRests(book, partiesInPieces(book, sale), isQuiet);
  await inRests(book, heldInPieces(book, sale), isQuiet);
  for (const view of [blockView, tillView, payoutView, balanceView]) {
    if (!isQuiet()) return;
    view(book, sale);
    await rest();
  }
  const [season] = pricedSeasons(book, fewestNow(book).fewest);
  for (const code of season?.codes ?? []) {
    if (!isQuiet()) return;
    season?.of(code);
    await rest();
  }
}

async function inRests<S>(book: Book, pieces: InPieces<S>, isQuiet: Quiet): Promise<void> {
  let from = performance.now();
  while (isQuiet() && readOn(book, pieces) === undefined) {
    if (performance.now() - from < WORK_MS) continue;
    await rest();
    from = performance.now();
  }
}

function rest(): Promise<void> {
  return after(REST_MS, undefined, { ref: false });
}

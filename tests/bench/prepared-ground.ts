/** A large book made ready for the acts at its stations: goods with a season limit, and a lot that waits for its tag. */

import { submit } from '#db/book/door.ts';
import type { Book } from '#db/book/open.ts';
import type { CommandName, InputOf, ValueOf } from '#db/commands.ts';
import type { Ground } from './at-the-stations.ts';
import { AT } from './big-book.ts';

interface About {
  readonly lots: number;
  readonly seller: number;
  readonly buyer: number;
}

export function preparedGround(book: Book, { lots, seller, buyer }: About): Ground {
  const raccoon = { goods: 'raccoon', name: 'Raccoon', by: 'piece', seasonLimit: 90_000 } as const;
  const bobcat = { goods: 'bobcat', name: 'Bobcat', by: 'piece', exportTag: true, tagSpeciesCode: 'BOB' } as const;
  give(book, 'goods.amend', { saleId: 1, ...raccoon, reason: 'a season limit' });
  give(book, 'goods.add', { saleId: 1, ...bobcat, reason: 'some came in' });
  const { lotId } = give(book, 'lot.add', { saleId: 1, sellerNo: seller, goods: 'bobcat', count: '1' });
  const bought = book.sqlite.prepare(BOUGHT).get(buyer) as Ground['bought'] | undefined;
  if (!bought) throw new Error(`Buyer ${buyer} has bought nothing.`);
  return { lots, called: Math.floor(lots * 0.9), bought, taggedLotId: lotId as number };
}

const BOUGHT = `
  SELECT lot.lot_number || lot.lot_letter AS lotNo, coalesce(lot.count, 1) AS pieces
  FROM outcome JOIN lot ON lot.id = outcome.lot_id JOIN buyer ON buyer.id = outcome.buyer_id
  WHERE buyer.buyer_no = ? ORDER BY outcome.id LIMIT 1`;

function give<N extends CommandName>(book: Book, command: N, input: InputOf<N>): ValueOf<N> {
  const answer = submit(book, {
    command,
    input,
    worker: 'bench',
    station: at(command),
    at: AT,
    key: `prepare-${command}`,
  });
  if (!answer.ok) throw new Error(`${command}: ${answer.message}`);
  return answer.value;
}

function at(command: string): 'office' | 'intake' {
  return command.startsWith('lot.') ? 'intake' : 'office';
}

import 'server-only';
import { madeReady } from '#app/made-ready.ts';
import type { Book } from '#db/open.ts';
import type { SaleRow } from '#db/queries/find.ts';
import { floorInPieces } from '#db/queries/floor.ts';
import { heldInPieces } from '#db/queries/lots-held.ts';
import { type SaleView, saleView } from '#db/queries/sale-view.ts';

/** The sale's figures, once what they are made of is ready. */
export async function saleViewReady(book: Book, sale: SaleRow): Promise<SaleView> {
  await madeReady(book, floorInPieces(book, sale));
  await madeReady(book, heldInPieces(book, sale));
  return saleView(book, sale);
}

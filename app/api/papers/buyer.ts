import 'server-only';
import { staffBook } from '#app/caller.ts';
import type { Book } from '#db/open.ts';
import { buyerFile } from '#db/queries/buyer-files.ts';
import type { SaleRow } from '#db/queries/find.ts';
import { saleOfAddress } from '#db/queries/sales.ts';
import type { BuyerFile } from '#lib/buyer/input.ts';
import { type Result, refuse } from '#lib/result.ts';

/** What a paper of one buyer is made from. */
export interface BuyerScene {
  readonly book: Book;
  readonly sale: SaleRow;
  readonly file: BuyerFile;
  /** A word of the address, or null. */
  readonly word: (name: string) => string | null;
}

/** The buyer that an address names, as in `?sale=1&buyer=10`; a refusal where there is no such sale or buyer. */
export async function buyerScene(request: Request): Promise<Result<BuyerScene>> {
  const allowed = await staffBook();
  if (!allowed.ok) return allowed;
  const book = allowed.value;
  const words = new URL(request.url).searchParams;
  const word = (name: string) => words.get(name);
  const sale = saleOfAddress(book, word('sale') ?? undefined);
  if (!sale) return refuse('unknown', 'There is no such sale in the book.', 'sale');
  const buyerNo = /^\d{1,5}$/.test(word('buyer') ?? '') ? Number.parseInt(word('buyer') ?? '', 10) : 0;
  const file = buyerFile(book, sale.id, buyerNo);
  if (!file) return refuse('unknown', 'There is no such buyer number in this sale.', 'buyer');
  return { ok: true, value: { book, sale, file, word } };
}

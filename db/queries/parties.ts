/**
 * The sellers and buyers of a sale with what the treasurer's and the till's screens say of each, kept piece by piece:
 * after a hammer price one seller number and one buyer are worked out anew, whatever the size of the sale.
 */
import type { Book } from '../open.ts';
import { type BuyerPiece, buyerPieces } from './buyer-pieces.ts';
import type { SaleRow } from './find.ts';
import { type InPieces, wholeOf } from './kept-pieces.ts';
import { Numbered } from './numbered.ts';
import { saleOfRow } from './sale-facts.ts';
import { type SellerPiece, sellerPieces } from './seller-pieces.ts';
import { numbersBehind, numbersTouched } from './touched-numbers.ts';

export interface Parties {
  /** By number. */
  readonly sellers: readonly SellerPiece[];
  readonly buyers: readonly BuyerPiece[];
}

interface State {
  readonly sellers: Numbered<SellerPiece>;
  readonly buyers: Numbered<BuyerPiece>;
}

/** All parties of a sale as they are now. Nobody may change them. */
export function partiesOf(book: Book, sale: SaleRow): Parties {
  const { sellers, buyers } = wholeOf(book, partiesInPieces(book, sale));
  return { sellers: sellers.inOrder(), buyers: buyers.inOrder() };
}

/** So many are read at a time, each time for some milliseconds: in a range, and one by one. */
const SELLERS = { inRange: 25, one: 8 } as const;
const BUYERS = { inRange: 4, one: 2 } as const;
/** Where more was touched, to begin again in ranges is less work. */
const MOST_SELLERS = 400;
const MOST_BUYERS = 100;

export function partiesInPieces(book: Book, sale: SaleRow): InPieces<State> {
  return {
    name: `parties of ${sale.id}`,
    // The terms and the day are in every sum.
    key: JSON.stringify(saleOfRow(book, sale)),
    begin: () => ({ sellers: new Numbered(), buyers: new Numbered() }),
    renew({ sellers, buyers }, touched) {
      if (touched.kinds.size > 0) return false;
      const { sellerNos, buyerNos } = numbersTouched(book, sale.id, touched);
      return sellers.wantAgain(sellerNos) <= MOST_SELLERS && buyers.wantAgain(buyerNos) <= MOST_BUYERS;
    },
    next: (state) => nextSellers(book, sale, state) || nextBuyers(book, sale, state),
  };
}

function nextSellers(book: Book, { id: saleId }: SaleRow, { sellers }: State): boolean {
  const due = sellers.nextDue(SELLERS.one);
  for (const sellerNo of due) sellers.put(sellerNo, sellerPieces(book, saleId, { sellerNo })[0]);
  if (due.length > 0) return true;
  const range = numbersBehind(book, saleId, { party: 'seller', behind: sellers.upTo, most: SELLERS.inRange });
  if (!range) return false;
  sellers.putRange(range, sellerPieces(book, saleId, { sellers: range }), ({ sellerNo }) => sellerNo);
  return true;
}

function nextBuyers(book: Book, sale: SaleRow, { buyers }: State): boolean {
  const due = buyers.nextDue(BUYERS.one);
  for (const buyerNo of due) buyers.put(buyerNo, buyerPieces(book, sale, { buyerNo })[0]);
  if (due.length > 0) return true;
  const range = numbersBehind(book, sale.id, { party: 'buyer', behind: buyers.upTo, most: BUYERS.inRange });
  if (!range) return false;
  buyers.putRange(range, buyerPieces(book, sale, { buyers: range }), ({ head }) => head.buyerNo);
  return true;
}

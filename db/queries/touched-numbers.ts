/** Whose seller and buyer numbers of one sale were touched, and which numbers there are. */
import type { Book } from '../open.ts';
import type { Touched } from '../touched.ts';
import type { Range } from './scope.ts';

interface Behind {
  readonly party: 'seller' | 'buyer';
  readonly behind: number;
  readonly most: number;
}

/** The first and the last of the next numbers that were given, or undefined where there are no more. */
export function numbersBehind(book: Book, saleId: number, { party, behind, most }: Behind): Range | undefined {
  const find = book.prepared(`numbers behind: ${party}`, () =>
    book.sqlite
      .prepare<[number, number, number], number>(
        `SELECT ${party}_no FROM ${party} WHERE sale_id = ? AND ${party}_no > ? ORDER BY ${party}_no LIMIT ?`,
      )
      .pluck(),
  );
  const numbers = find.all(saleId, behind, most);
  const [from, to] = [numbers[0], numbers.at(-1)];
  return from === undefined || to === undefined ? undefined : { from, to };
}

const WHOSE_LOT = `SELECT seller.seller_no FROM lot JOIN seller ON seller.id = lot.seller_id
  WHERE lot.id = :id AND +lot.sale_id = :saleId`;

const SELLERS = {
  seller: 'SELECT seller_no FROM seller WHERE id = :id AND sale_id = :saleId',
  lot: WHOSE_LOT,
  called: WHOSE_LOT,
  person: `SELECT seller.seller_no FROM partner JOIN seller ON seller.id = partner.seller_id
    WHERE partner.person_id = :id AND +seller.sale_id = :saleId`,
} as const;

const WHO_BOUGHT = `SELECT buyer.buyer_no FROM outcome JOIN buyer ON buyer.id = outcome.buyer_id
  WHERE outcome.lot_id = :id AND +buyer.sale_id = :saleId`;

// A lot that was bought before and corrected since has touched both its buyers.
const BUYERS = {
  buyer: 'SELECT buyer_no FROM buyer WHERE id = :id AND sale_id = :saleId',
  lot: WHO_BOUGHT,
  called: WHO_BOUGHT,
  handed: WHO_BOUGHT,
  person: 'SELECT buyer_no FROM buyer WHERE sale_id = :saleId AND person_id = :id',
} as const;

export interface TouchedNumbers {
  readonly sellerNos: ReadonlySet<number>;
  readonly buyerNos: ReadonlySet<number>;
}

export function numbersTouched(book: Book, saleId: number, touched: Touched): TouchedNumbers {
  return {
    sellerNos: numbersOf(book, saleId, { name: 'sellers', by: SELLERS, touched }),
    buyerNos: numbersOf(book, saleId, { name: 'buyers', by: BUYERS, touched }),
  };
}

interface Ask {
  readonly name: string;
  readonly by: Readonly<Partial<Record<keyof Touched, string>>>;
  readonly touched: Touched;
}

function numbersOf(book: Book, saleId: number, { name, by, touched }: Ask): Set<number> {
  const numbers = new Set<number>();
  for (const [kind, text] of Object.entries(by) as [keyof Touched, string][]) {
    const find = book.prepared(`touched ${name}: ${kind}`, () => book.sqlite.prepare<[object], number>(text).pluck());
    for (const id of touched[kind]) for (const number of find.all({ id, saleId })) numbers.add(number);
  }
  return numbers;
}

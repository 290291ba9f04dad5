/** Of which goods the prices have to be worked out anew. */
import type { Book } from '../open.ts';
import { type Looked, touchedSince } from '../touched.ts';
import type { SaleRow } from './find.ts';

const OF_LOT = 'SELECT goods.goods FROM lot JOIN goods ON goods.id = lot.goods_id WHERE lot.id = ? AND lot.sale_id = ?';
const OF_GOODS = 'SELECT goods FROM goods WHERE id = ? AND sale_id = ?';
const SELLER = 'SELECT 1 FROM seller WHERE id = ? AND sale_id = ?';

/** The short names of the goods of these sales of which lots were touched since; null where all may be touched. */
export function goodsTouched(
  book: Book,
  sales: readonly Pick<SaleRow, 'id'>[],
  looked: Looked,
): ReadonlySet<string> | null {
  const touched = touchedSince(book, looked);
  if (touched === null || touched.called.size > MOST) return null;
  const found = (text: string, ids: ReadonlySet<number>): unknown[] => {
    const find = book.prepared(`goods touched: ${text}`, () => book.sqlite.prepare<[number, number]>(text).pluck());
    return [...ids].flatMap((id) => sales.flatMap((sale) => find.get(id, sale.id) ?? []));
  };
  // Whose numbers are one business may be otherwise now; and goods have a name, which stands in every range.
  if (found(SELLER, touched.people).length > 0 || found(OF_GOODS, touched.kinds).length > 0) return null;
  // A lot has a price only once it is called, and is not changed then: only one that was opened again meanwhile may have
  // come under other goods.
  const reopened = [...touched.called].some((lotId) => touched.lot.has(lotId));
  const codes = [...found(OF_LOT, touched.called), ...(reopened ? found(OF_GOODS, touched.goods) : [])];
  return new Set(codes as string[]);
}

/** Where more lots were touched, nobody asks of which goods each is. */
const MOST = 2000;

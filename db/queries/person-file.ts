/** Everything the book keeps about one person, table by table, for the person to read. */
import type { Book } from '../open.ts';
import { logPart } from './log-view.ts';

/** More than a book of a lifetime has lines about one person. */
const MOST_LINES = 1_000_000;

/** Each part: its name, and the rows of a table that are about person `:id`. */
const PARTS: readonly (readonly [string, string])[] = [
  ['person', 'SELECT * FROM person WHERE id = :id'],
  ['atEachSale', 'SELECT * FROM particulars WHERE person_id = :id'],
  ['sellerNumbers', 'SELECT seller.*, parts FROM seller JOIN partner ON seller_id = seller.id WHERE person_id = :id'],
  ['lots', `SELECT lot.* FROM lot JOIN partner ON partner.seller_id = lot.seller_id WHERE person_id = :id`],
  [
    'tags',
    'SELECT tag.* FROM tag JOIN lot ON lot.id = lot_id JOIN partner ON partner.seller_id = lot.seller_id WHERE person_id = :id',
  ],
  ['dues', 'SELECT * FROM dues WHERE person_id = :id'],
  ['charges', 'SELECT charge.* FROM charge JOIN partner ON partner.seller_id = charge.seller_id WHERE person_id = :id'],
  ['buyerNumbers', 'SELECT * FROM buyer WHERE person_id = :id'],
  ['bought', 'SELECT outcome.* FROM outcome JOIN buyer ON buyer.id = buyer_id WHERE person_id = :id'],
  [
    'settlementSheets',
    'SELECT settlement.* FROM settlement JOIN partner ON partner.seller_id = settlement.seller_id WHERE person_id = :id',
  ],
  ['invoices', 'SELECT invoice.* FROM invoice JOIN buyer ON buyer.id = buyer_id WHERE person_id = :id'],
  [
    'payments',
    `SELECT payment.* FROM payment WHERE person_id = :id OR buyer_id IN (SELECT id FROM buyer WHERE person_id = :id)
       OR seller_id IN (SELECT seller_id FROM partner WHERE person_id = :id)`,
  ],
];

/** The person's file as JSON can carry it, or null where there is no such person. */
export function personFile(book: Book, personId: number): Record<string, unknown> | null {
  const parts = PARTS.map(([name, sql]) => [name, book.sqlite.prepare(sql).all({ id: personId })] as const);
  if (parts[0]?.[1].length === 0) return null;
  // An import is one line about many people: its words are enough, and its input is not theirs alone.
  const lines = logPart(book, { personId }, MOST_LINES).map(({ input: _, ...line }) => line);
  return { ...Object.fromEntries(parts), logLines: lines };
}

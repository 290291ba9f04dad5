/** When the prices of a sale have to be worked out anew: a text that changes with whatever they rest on. */
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';

// Outcomes are never changed, so that their newest row says enough; the other rows carry the line that wrote them last.
const NEWEST = `
  SELECT (SELECT max(id) FROM outcome),
    (SELECT max(line) FROM lot WHERE sale_id = :id), (SELECT max(line) FROM goods WHERE sale_id = :id),
    (SELECT max(line) FROM seller WHERE sale_id = :id), (SELECT max(line) FROM buyer WHERE sale_id = :id),
    (SELECT max(partner.line) FROM partner JOIN seller ON seller.id = partner.seller_id WHERE seller.sale_id = :id)`;

/** A closed sale stays as it is until somebody reopens it, which changes its row. */
export function pricesState(book: Book, { id, line, stage }: Pick<SaleRow, 'id' | 'line' | 'stage'>): string {
  if (stage === 'closed') return `${id} ${line}`;
  const find = book.prepared('newest of a sale', () => book.sqlite.prepare(NEWEST).raw());
  return `${id} ${line} ${stage} ${(find.get({ id }) as unknown[]).join(' ')}`;
}

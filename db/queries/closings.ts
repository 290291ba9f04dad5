/** When a sale was closed and opened again, by whom, and the report of each closing. */
import { asc, eq } from 'drizzle-orm';
import type { ListPaper } from '#lib/paper/list.ts';
import type { Book } from '../open.ts';
import { buyer, closing, particulars } from '../schema/index.ts';

export interface Closing {
  readonly closingId: number;
  readonly kind: 'closed' | 'reopened';
  readonly reason: string;
  readonly worker: string;
  readonly at: string;
  /** Null where the sale was opened again. */
  readonly report: ListPaper | null;
}

/** The oldest first. */
export function closingsOf(book: Book, saleId: number): Closing[] {
  const rows = book.db.select().from(closing).where(eq(closing.saleId, saleId)).orderBy(asc(closing.id)).all();
  return rows.map(({ id, kind, reason, worker, at, model }) => {
    return {
      closingId: id,
      kind,
      reason,
      worker,
      at,
      report: model === null ? null : (JSON.parse(model) as ListPaper),
    };
  });
}

/** The name of each buyer of a sale by number, as it stood there. */
export function namesOfBuyers(book: Book, saleId: number): Map<number, string> {
  const rows = book.db
    .select({ buyerNo: buyer.buyerNo, personId: buyer.personId })
    .from(buyer)
    .where(eq(buyer.saleId, saleId))
    .all();
  const people = book.db.select().from(particulars).where(eq(particulars.saleId, saleId)).all();
  const names = new Map(people.map(({ personId, name }) => [personId, name]));
  return new Map(rows.map(({ buyerNo, personId }) => [buyerNo, names.get(personId) ?? '']));
}

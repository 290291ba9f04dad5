/** What the papers for the time after a sale are made from, and the sale before it. */
import { and, desc, eq, lt, ne } from 'drizzle-orm';
import type { AfterwardsFacts } from '#lib/afterwards/facts.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { lot, sale } from '../schema/index.ts';
import type { SaleRow } from './find.ts';
import { paperGround } from './paper-lots.ts';
import { saleFacts } from './sale-facts.ts';
import { peopleOf, tagsOfSale } from './sheets.ts';

/** `drawnOn` is an ISO 8601 date. */
export function afterwardsFacts(book: Book, row: SaleRow, drawnOn: string): AfterwardsFacts {
  return {
    ground: paperGround(book, row, drawnOn),
    facts: saleFacts(book, row.id),
    people: peopleOf(book, row.id),
    tags: tagsOfSale(book, row.id),
    takenIn: takenInOf(book, row.id),
    statementDays: row.statementDays,
  };
}

function takenInOf(book: Book, saleId: number): Map<LotNo, string> {
  const { lotNumber, lotLetter, takenIn } = lot;
  const rows = book.db.select({ lotNumber, lotLetter, takenIn }).from(lot).where(eq(lot.saleId, saleId)).all();
  return new Map(rows.map((one) => [lotNoOf(one), one.takenIn]));
}

/** The newest sale before this one that was held, or undefined. */
export function saleBefore(book: Book, { id, heldOn }: Pick<SaleRow, 'id' | 'heldOn'>): SaleRow | undefined {
  return book.db
    .select()
    .from(sale)
    .where(and(lt(sale.heldOn, heldOn), ne(sale.id, id), ne(sale.stage, 'planned')))
    .orderBy(desc(sale.heldOn))
    .limit(1)
    .get();
}

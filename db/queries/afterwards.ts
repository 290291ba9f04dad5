/** What the papers for the time after a sale are made from, and the sale before it. */
import { and, desc, lt, ne } from 'drizzle-orm';
import type { AfterwardsFacts } from '#lib/afterwards/facts.ts';
import type { Book } from '../open.ts';
import { sale } from '../schema/index.ts';
import type { SaleRow } from './find.ts';
import { paperGround } from './paper-lots.ts';
import { factsOf, takenInOf } from './sale-facts.ts';
import type { Scope } from './scope.ts';
import { peopleIn, tagsIn } from './sheets.ts';


interface Asked {
  /** ISO 8601 date. */
  readonly drawnOn: string;
  readonly scope?: Scope;
}

/** Of the whole sale, or of the seller numbers of a scope. */
export function afterwardsFacts(book: Book, row: SaleRow, { drawnOn, scope = null }: Asked): AfterwardsFacts {
  return {
    ground: paperGround(book, row, drawnOn),
    facts: factsOf(book, row.id, scope),
    people: peopleIn(book, row.id, scope),
    tags: tagsIn(book, row.id, scope),
    takenIn: takenInOf(book, row.id, scope),
    statementDays: row.statementDays,
  };
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

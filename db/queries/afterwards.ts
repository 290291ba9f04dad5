/** What the papers for the time after a sale are made from, and the sale before it. */
import { and, desc, lt, ne } from 'drizzle-orm';
import type { AfterwardsFacts } from '#lib/afterwards/facts.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { sale } from '../schema/index.ts';
import type { SaleRow } from './find.ts';
import { paperGround } from './paper-lots.ts';
import { factsOf } from './sale-facts.ts';
import { OF_LOTS, type Scope, scopedRows } from './scope.ts';
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

const TAKEN_IN = {
  name: 'where lots of sellers were taken',
  by: OF_LOTS,
  text: `
    SELECT lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, lot.taken_in AS takenIn
    FROM lot JOIN seller ON seller.id = lot.seller_id WHERE lot.sale_id = :saleId AND {scope}`,
};

interface TakenIn {
  readonly lotNumber: number;
  readonly lotLetter: string;
  readonly takenIn: string;
}

function takenInOf(book: Book, saleId: number, scope: Scope): Map<LotNo, string> {
  const rows = scopedRows<TakenIn>(book, TAKEN_IN, { saleId, scope });
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

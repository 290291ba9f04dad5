/** What the papers for the time after a sale are made from, and the sale before it. */
import { and, asc, desc, lt, ne, sql } from 'drizzle-orm';
import type { SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { paperGround, takenInOf } from '#db/lot/papers.ts';
import { factsOf } from '#db/sale/facts.ts';
import type { Scope } from '#db/sale/scope.ts';
import { lotNow, sale } from '#db/schema/index.ts';
import { peopleIn, tagsIn } from '#db/settlement/sheets.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import type { AfterwardsFacts } from '#lib/report/after-sale.ts';
import { heldOver } from '#lib/report/held-over.ts';
import { type PageOf, pageOf } from '#lib/result/search.ts';

const given = sql.placeholder;

interface Asked {
  /** ISO 8601 date. */
  readonly drawnOn: string;
  readonly scope?: Scope;
}

/** Of the whole sale, or of the seller numbers of a scope. */
export function afterwardsFacts(book: Book, row: SaleRow, { drawnOn, scope = null }: Asked): AfterwardsFacts {
  return {
    context: paperGround(book, row, drawnOn),
    facts: factsOf(book, row.id, scope),
    people: peopleIn(book, row.id, scope),
    tags: tagsIn(book, row.id, scope),
    takenIn: takenInOf(book, row.id, scope),
    statementDays: row.statementDays,
  };
}

export interface HeldOverView {
  readonly list: ListPaper;
  /** The seller numbers with lots that were not sold. */
  readonly sellers: PageOf<number>;
}

const SELLERS_A_PAGE = 25;

const sellersHolding = query(({ db }) =>
  db
    .select({ sellerNo: lotNow.sellerNo })
    .from(lotNow)
    .where(and(equals(lotNow.saleId, 'saleId'), sql`${lotNow.outcome} IS NOT 'sold'`))
    .groupBy(lotNow.sellerNo)
    .orderBy(asc(lotNow.sellerNo)),
);

/** What went home unsold, a page of seller numbers at a time. The paper and the file are whole. */
export function heldOverView(
  book: Book,
  sale: SaleRow,
  { drawnOn, page }: Pick<Asked, 'drawnOn'> & { readonly page: string | undefined },
): HeldOverView {
  const held = sellersHolding(book).all({ saleId: sale.id });
  const sellers = pageOf(
    held.map(({ sellerNo }) => sellerNo),
    page,
    SELLERS_A_PAGE,
  );
  const range = { from: sellers.rows[0] ?? 0, to: sellers.rows.at(-1) ?? 0 };
  return { list: heldOver(afterwardsFacts(book, sale, { drawnOn, scope: { sellers: range } })), sellers };
}

const newestBefore = query(({ db }) =>
  db
    .select()
    .from(sale)
    .where(and(lt(sale.heldOn, given('heldOn')), ne(sale.id, given('saleId')), ne(sale.stage, 'planned')))
    .orderBy(desc(sale.heldOn))
    .limit(1),
);

/** The newest sale before this one that was held, or undefined. */
export function saleBefore(book: Book, { id: saleId, heldOn }: Pick<SaleRow, 'id' | 'heldOn'>): SaleRow | undefined {
  return newestBefore(book).get({ saleId, heldOn });
}

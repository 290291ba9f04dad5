/** The afternoon at a glance: how many lots are done and left, how fast it goes, what it brought so far. */
import { and, eq, isNull, ne, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { cents, showMoney, sumCents } from '#lib/money.ts';
import { type Pace, paceOf } from '#lib/pace.ts';
import { lotAmount } from '#lib/quantity.ts';
import type { Book } from '../open.ts';
import { lot, outcome } from '../schema/index.ts';
import type { SaleRow } from './find.ts';

const later = alias(outcome, 'later');

export interface Glance {
  readonly sold: number;
  readonly passed: number;
  readonly withdrawn: number;
  readonly left: number;
  readonly pace: Pace | null;
  /** What the sold lots brought, with commas between the thousands. */
  readonly total: string;
}

export function glance(book: Book, sale: SaleRow, left: number): Glance {
  const find = book.prepared('glance', (db) =>
    db
      .select({
        ...{ kind: outcome.kind, priceCents: outcome.priceCents, at: outcome.at },
        ...{ by: lot.by, count: lot.count, weightThousandths: lot.weightThousandths },
      })
      .from(lot)
      .innerJoin(outcome, eq(outcome.lotId, lot.id))
      .leftJoin(later, eq(later.replacesId, outcome.id))
      .where(and(eq(lot.saleId, sql.placeholder('saleId')), isNull(later.id), ne(outcome.kind, 'reopened')))
      .prepare(),
  );
  const rows = find.all({ saleId: sale.id });
  const many = (kind: string) => rows.filter((row) => row.kind === kind).length;
  const amounts = rows.map((row) => (row.priceCents === null ? cents(0) : lotAmount(cents(row.priceCents), row)));
  return {
    ...{ sold: many('sold'), passed: many('passed'), withdrawn: many('withdrawn'), left },
    pace: paceOf(
      rows.map(({ at }) => Date.parse(at)),
      left,
    ),
    total: showMoney(sumCents(amounts)),
  };
}

/** The lots that were called last, newest first, with who took them down and when. */
import { and, desc, eq, isNull, ne, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type { Measured, OutcomeKind } from '#lib/facts.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { type Cents, cents } from '#lib/money.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { buyer, goods, log, lot, outcome, seller } from '../schema/index.ts';

const given = sql.placeholder;
const later = alias(outcome, 'later');

export interface CalledLot {
  readonly lotId: number;
  readonly outcomeId: number;
  readonly lotNo: LotNo;
  readonly goodsName: string;
  readonly sellerNo: number;
  readonly kind: OutcomeKind;
  readonly priceCents: Cents | null;
  readonly buyerNo: number | null;
  readonly measured: Measured;
  /** What the lot brought, 0 where it was not sold. */
  readonly amountCents: Cents;
  /** True where this outcome replaced an earlier one. */
  readonly corrected: boolean;
  readonly reason: string;
  readonly remarks: readonly string[];
  readonly worker: string;
  readonly at: string;
}

/** The newest `most` outcomes that stand; the highest outcome id is the newest. */
export function calledLots(book: Book, saleId: number, most: number): CalledLot[] {
  const find = book.prepared('called lots', (db) =>
    selectCalled(db)
      // The plus keeps SQLite from going through all lots of the sale: the newest outcomes are mostly of this sale.
      .where(and(sql`+${lot.saleId} = ${given('saleId')}`, isNull(later.id), ne(outcome.kind, 'reopened')))
      .orderBy(desc(outcome.id))
      .limit(given('most'))
      .prepare(),
  );
  return find.all({ saleId, most }).map(calledLotOf);
}

/** Everything that was called of one seller number, newest first. */
export function calledLotsOfSeller(book: Book, saleId: number, sellerNo: number): CalledLot[] {
  const find = book.prepared('called lots of a seller', (db) =>
    selectCalled(db)
      .where(
        and(
          ...[eq(seller.saleId, given('saleId')), eq(seller.sellerNo, given('sellerNo'))],
          ...[isNull(later.id), ne(outcome.kind, 'reopened')],
        ),
      )
      .orderBy(desc(outcome.id))
      .prepare(),
  );
  return find.all({ saleId, sellerNo }).map(calledLotOf);
}

/** The outcome that stands for one lot, as the screens show it. */
export function calledLot(book: Book, lotId: number): CalledLot | undefined {
  const find = book.prepared('called lot', (db) =>
    selectCalled(db)
      .where(and(eq(lot.id, given('lotId')), isNull(later.id), ne(outcome.kind, 'reopened')))
      .prepare(),
  );
  const row = find.get({ lotId });
  return row && calledLotOf(row);
}

function selectCalled(db: Book['db']) {
  return db
    .select({
      ...{ lotNumber: lot.lotNumber, lotLetter: lot.lotLetter, by: lot.by, count: lot.count },
      ...{ lotId: lot.id, weightThousandths: lot.weightThousandths, goodsName: goods.name, sellerNo: seller.sellerNo },
      ...{ outcomeId: outcome.id, kind: outcome.kind, priceCents: outcome.priceCents, buyerNo: buyer.buyerNo },
      ...{ replacesId: outcome.replacesId, reason: outcome.reason, remarks: outcome.remarks, at: outcome.at },
      worker: log.worker,
    })
    .from(outcome)
    .innerJoin(lot, eq(lot.id, outcome.lotId))
    .innerJoin(goods, eq(goods.id, lot.goodsId))
    .innerJoin(seller, eq(seller.id, lot.sellerId))
    .leftJoin(log, eq(log.seq, outcome.line))
    .leftJoin(buyer, eq(buyer.id, outcome.buyerId))
    .leftJoin(later, eq(later.replacesId, outcome.id));
}

type Row = ReturnType<ReturnType<typeof selectCalled>['all']>[number];

function calledLotOf(row: Row): CalledLot {
  const { by, count, weightThousandths, lotNumber, lotLetter, replacesId, priceCents, worker, kind, ...rest } = row;
  const price = priceCents === null ? null : cents(priceCents);
  const measured = { by, count, weightThousandths };
  return {
    ...rest,
    measured,
    kind: kind === 'reopened' ? 'withdrawn' : kind,
    lotNo: lotNoOf({ lotNumber, lotLetter }),
    priceCents: price,
    amountCents: price === null ? cents(0) : lotAmount(price, measured),
    corrected: replacesId !== null && rest.reason !== '',
    worker: worker ?? '',
  };
}

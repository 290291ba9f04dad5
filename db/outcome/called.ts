/** The lots that were called last, newest first, with who took them down and when. */
import { and, count, desc, eq, gte, ne, sql } from 'drizzle-orm';
import { lotNoOf } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { buyer, calledAmount, goods, log, lot, seller, standingOutcome as standing } from '#db/schema/index.ts';
import { timeInWords } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { addCents, type Cents, cents, showMoney, ZERO } from '#lib/money/money.ts';
import { LOTS_LOOKED_AT, type Pace, paceOf } from '#lib/outcome/pace.ts';
import type { Fate, Measured, OutcomeKind } from '#lib/sale/facts.ts';

const given = sql.placeholder;

export interface CalledLot {
  readonly lotId: number;
  readonly outcomeId: number;
  readonly lotNo: LotNo;
  readonly goodsName: string;
  readonly sellerNo: number;
  readonly kind: OutcomeKind;
  readonly priceCents: Cents | null;
  /** What becomes of the fur of a lot that was not paid for; null for any other. */
  readonly fate: Fate | null;
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

const newestCalled = query(({ db }) =>
  selectCalled(db)
    // The plus keeps SQLite from going through all lots of the sale: the newest outcomes are mostly of this sale.
    .where(sql`+${lot.saleId} = ${given('saleId')}`)
    .orderBy(desc(standing.id))
    .limit(given('most')),
);

/** The newest `most` outcomes that stand; the highest outcome id is the newest. */
export function calledLots(book: Book, saleId: number, most: number): CalledLot[] {
  return newestCalled(book).all({ saleId, most }).map(calledLotOf);
}

const calledOfSeller = query(({ db }) =>
  selectCalled(db)
    .where(and(equals(seller.saleId, 'saleId'), equals(seller.sellerNo, 'sellerNo')))
    .orderBy(desc(standing.id)),
);

/** Everything that was called of one seller number, newest first. */
export function calledLotsOfSeller(book: Book, saleId: number, sellerNo: number): CalledLot[] {
  return calledOfSeller(book).all({ saleId, sellerNo }).map(calledLotOf);
}

const calledById = query(({ db }) => selectCalled(db).where(equals(lot.id, 'lotId')));

/** The outcome that stands for one lot, as the screens show it. */
export function calledLot(book: Book, lotId: number): CalledLot | undefined {
  const row = calledById(book).get({ lotId });
  return row && calledLotOf(row);
}

function selectCalled(db: Book['db']) {
  return db
    .select({
      ...pick(lot, ['lotNumber', 'lotLetter', 'by', 'count', 'weightThousandths']),
      ...{ goodsName: goods.name, sellerNo: seller.sellerNo, outcomeId: standing.id },
      ...pick(standing, ['lotId', 'kind', 'priceCents', 'fate', 'replacesId', 'reason', 'remarks', 'at']),
      ...{ buyerNo: buyer.buyerNo, worker: log.worker },
    })
    .from(standing)
    .innerJoin(lot, eq(lot.id, standing.lotId))
    .innerJoin(goods, eq(goods.id, lot.goodsId))
    .innerJoin(seller, eq(seller.id, lot.sellerId))
    .leftJoin(log, eq(log.seq, standing.line))
    .leftJoin(buyer, eq(buyer.id, standing.buyerId))
    .$dynamic();
}

type Row = ReturnType<ReturnType<typeof selectCalled>['all']>[number];

function calledLotOf(row: Row): CalledLot {
  const { by, count, weightThousandths, lotNumber, lotLetter, replacesId, priceCents, worker, kind, ...rest } = row;
  const measured = { by, count, weightThousandths };
  return {
    ...rest,
    measured,
    kind: kind === 'reopened' ? 'withdrawn' : kind,
    lotNo: lotNoOf({ lotNumber, lotLetter }),
    priceCents,
    amountCents: kind !== 'sold' || priceCents === null ? ZERO : lotAmount(priceCents, measured),
    corrected: replacesId !== null && rest.reason !== '',
    worker: worker ?? '',
  };
}

const countCalled = query(({ db }) =>
  db
    .select({
      kind: calledAmount.kind,
      lots: count(),
      totalCents: sql<number | null>`sum(${calledAmount.amountCents})`,
      /** Before this row of an outcome nothing of the sale was called that stands. */
      firstId: sql<number>`min(${calledAmount.outcomeId})`,
    })
    .from(calledAmount)
    .where(equals(calledAmount.saleId, 'saleId'))
    .groupBy(calledAmount.kind),
);

export interface CalledSoFar extends Readonly<Record<OutcomeKind, number>> {
  readonly totalCents: Cents;
  /** Infinite while nothing was called. */
  readonly firstId: number;
}

/** How many lots of a sale were called, and what they brought. */
export function calledSoFar(book: Book, saleId: number): CalledSoFar {
  const many = { sold: 0, passed: 0, withdrawn: 0, bought_back: 0, unpaid: 0 };
  let totalCents = ZERO;
  let firstId = Number.POSITIVE_INFINITY;
  for (const { kind, lots, ...row } of countCalled(book).all({ saleId })) {
    if (kind !== 'reopened') many[kind] = lots;
    totalCents = addCents(totalCents, cents(row.totalCents ?? 0));
    firstId = Math.min(firstId, row.firstId);
  }
  return { ...many, totalCents, firstId };
}

/** The afternoon at a glance: how many lots are done and left, how fast it goes, what it brought so far. */
export interface Glance extends Pick<CalledSoFar, OutcomeKind> {
  /** Lots still to be called. */
  readonly left: number;
  /** `doneAt` is the time of day at which the last lot is called, as people read it. */
  readonly pace: (Pace & { readonly doneAt: string }) | null;
  /** What the sold lots brought, with commas between the thousands. */
  readonly total: string;
}

export function glance(book: Book, saleId: number, lots: number): Glance {
  const { totalCents, firstId, ...many } = calledSoFar(book, saleId);
  const left = Object.values(many).reduce((so, called) => so - called, lots);
  const pace = paceOf(newestMs(book, saleId, firstId), left);
  const doneAt = pace && timeInWords(new Date(pace.doneAtMs).toISOString(), timeZoneOf(book));
  return { ...many, left, pace: pace && doneAt ? { ...pace, doneAt } : null, total: showMoney(totalCents) };
}

const newestTimes = query(({ db }) =>
  db
    .select({ at: standing.at })
    .from(standing)
    .innerJoin(lot, eq(lot.id, standing.lotId))
    .where(
      and(
        ...[sql`+${lot.saleId} = ${given('saleId')}`, gte(standing.id, given('firstId'))],
        // A lot that was withdrawn took nobody's time at the hammer.
        ne(standing.kind, 'withdrawn'),
      ),
    )
    .orderBy(desc(standing.id))
    .limit(LOTS_LOOKED_AT),
);

/**
 * When the newest lots were called, no more of them than the pace is taken from. They are looked for no further back
 * than the sale's first: a sale that has just begun would have those of all earlier seasons gone through at each lot.
 */
function newestMs(book: Book, saleId: number, firstId: number): number[] {
  if (!Number.isFinite(firstId)) return [];
  const rows = newestTimes(book).all({ saleId, firstId });
  return rows.map(({ at }) => Date.parse(at));
}

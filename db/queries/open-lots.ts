/** The lots of a sale that are still to be called, in the order in which they come up. */
import { and, asc, eq, isNull, type SQL, sql } from 'drizzle-orm';
import type { LotNo } from '#lib/lot-number.ts';
import { inRunningOrder, RUNNING_ORDERS, type Runner, type RunningOrder } from '#lib/running-order.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { lotNow } from '../schema/index.ts';
import { statement } from '../statement.ts';
import type { SaleRow } from './find.ts';

const given = sql.placeholder;

export interface OpenLot {
  readonly lotId: number;
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goodsName: string;
  readonly place: number | null;
}

/** The order of a sale; a word that an older book may hold counts as the order by lot number. */
export function orderOf({ runningOrder }: Pick<SaleRow, 'runningOrder'>): RunningOrder {
  return RUNNING_ORDERS.find((order) => order === runningOrder) ?? 'lot';
}

/** Lots in the running order of their sale. */
export function inOrderOf<T extends Runner>(sale: Pick<SaleRow, 'runningOrder'>, lots: readonly T[]): T[] {
  return inRunningOrder(orderOf(sale), lots);
}

const columns = {
  lotId: lotNow.id,
  lotNumber: lotNow.lotNumber,
  lotLetter: lotNow.lotLetter,
  sellerNo: lotNow.sellerNo,
  goodsName: lotNow.goodsName,
  place: lotNow.place,
};

const isOpen = and(eq(lotNow.saleId, given('saleId')), isNull(lotNow.outcomeId));

type Cells = [
  lotId: number,
  lotNumber: number,
  lotLetter: string,
  sellerNo: number,
  goodsName: string,
  place: number | null,
];

const findOpen = statement(({ db }) => db.select(columns).from(lotNow).where(isOpen).prepare());

/** All of them, as they are at this moment, also within a command. Read as arrays: a morning has 100,000 of them. */
export function openLots(book: Book, sale: SaleRow): OpenLot[] {
  return inOrderOf(sale, (findOpen(book).values({ saleId: sale.id }) as Cells[]).map(openLot));
}

function openLot([lotId, lotNumber, lotLetter, sellerNo, goodsName, place]: Cells): OpenLot {
  return { lotId, lotNo: lotNoOf({ lotNumber, lotLetter }), sellerNo, goodsName, place };
}

/**
 * The order of lib/running-order.ts as SQL, for those who show only the first lots of a large sale; a law holds the two
 * together. SQLite compares texts by their UTF-8 bytes, which is the order of their code points.
 */
const FIRST_BY: Readonly<Record<RunningOrder, readonly SQL[]>> = {
  lot: [],
  seller: [sql`${lotNow.sellerNo}`],
  goods: [sql`${lotNow.goodsName}`],
  hand: [],
};

function firstIn(order: RunningOrder) {
  return statement(({ db }) =>
    db
      .select(columns)
      .from(lotNow)
      .where(isOpen)
      .orderBy(sql`coalesce(${lotNow.place}, 0)`, ...FIRST_BY[order], asc(lotNow.lotNumber), asc(lotNow.lotLetter))
      .limit(given('most'))
      .prepare(),
  );
}

const findFirst = {
  lot: firstIn('lot'),
  seller: firstIn('seller'),
  goods: firstIn('goods'),
  hand: firstIn('hand'),
} satisfies Record<RunningOrder, unknown>;

/** The next lots that come up, no more of them than are asked for. */
export function nextLots(book: Book, sale: SaleRow, most: number): OpenLot[] {
  const rows = findFirst[orderOf(sale)](book).all({ saleId: sale.id, most });
  return rows.map(({ lotNumber, lotLetter, ...row }) => ({ ...row, lotNo: lotNoOf({ lotNumber, lotLetter }) }));
}

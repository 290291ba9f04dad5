/** The lots of a sale that are still to be called, in the order in which they come up. */
import { and, asc, isNull, type SQL, sql } from 'drizzle-orm';
import { findSale } from '#db/book/command.ts';
import { type LotRow, lotById, lotByNumber, lotNoOf, type SaleRow, saleById } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { outcomeInWords, standingOutcomeOf } from '#db/outcome/queries.ts';
import { lotNow } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import { decideAmend } from '#lib/lot/decide-lot.ts';
import { type LotNo, lotNo as toLotNo } from '#lib/lot/number.ts';
import { inRunningOrder, RUNNING_ORDERS, type Runner, type RunningOrder } from '#lib/lot/running-order.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { noLot } from './former.ts';

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
  ...pick(lotNow, ['lotNumber', 'lotLetter', 'sellerNo', 'goodsName', 'place']),
};

const isOpen = and(equals(lotNow.saleId, 'saleId'), isNull(lotNow.outcomeId));

type Cells = [
  lotId: number,
  lotNumber: number,
  lotLetter: string,
  sellerNo: number,
  goodsName: string,
  place: number | null,
];

const findOpen = query(({ db }) => db.select(columns).from(lotNow).where(isOpen));

/** All of them, as they are at this moment, also within a command. Read as arrays: a morning has 100,000 of them. */
export function openLots(book: Book, sale: SaleRow): OpenLot[] {
  return inOrderOf(sale, (findOpen(book).values({ saleId: sale.id }) as Cells[]).map(openLot));
}

function openLot([lotId, lotNumber, lotLetter, sellerNo, goodsName, place]: Cells): OpenLot {
  return { lotId, lotNo: lotNoOf({ lotNumber, lotLetter }), sellerNo, goodsName, place };
}

/**
 * The order of lib/lot/running-order.ts as SQL, for those who show only the first lots of a large sale; a law holds the two
 * together. SQLite compares texts by their UTF-8 bytes, which is the order of their code points.
 */
const FIRST_BY: Readonly<Record<RunningOrder, readonly SQL[]>> = {
  lot: [],
  seller: [sql`${lotNow.sellerNo}`],
  goods: [sql`${lotNow.goodsName}`],
  hand: [],
};

function firstIn(order: RunningOrder) {
  return query(({ db }) =>
    db
      .select(columns)
      .from(lotNow)
      .where(isOpen)
      .orderBy(sql`coalesce(${lotNow.place}, 0)`, ...FIRST_BY[order], asc(lotNow.lotNumber), asc(lotNow.lotLetter))
      .limit(given('most')),
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

/** A lot that may still be changed because it was not called yet. */
export function lotToChange(book: Book, lotId: number): Result<LotRow> {
  const row = lotById(book, lotId);
  if (!row) return refuse('unknown', 'This lot is not in the book: find it again by its number.', 'lotId');
  const standing = standingOutcomeOf(book, lotId);
  const stage = saleById(book, row.saleId)?.stage ?? 'closed';
  const said = standing ? outcomeInWords(book, standing) : null;
  const decided = decideAmend({ lotNo: lotNoOf(row), stage, standing: said });
  return decided.ok ? accept(row) : decided;
}

export interface LotToMove {
  readonly sale: SaleRow;
  readonly lot: OpenLot;
  /** All lots still to be called, in the order in which they come up. */
  readonly open: readonly OpenLot[];
}

/** A lot that is still to be called and may be moved in the running order, with all the others. */
export function lotToMove(book: Book, saleId: number, lotNo: LotNo): Result<LotToMove> {
  const sale = findSale(book, saleId);
  if (!sale.ok) return sale;
  const open = openLots(book, sale.value);
  const lot = open.find((one) => one.lotNo === lotNo);
  return lot ? accept({ sale: sale.value, lot, open }) : refuseToMove(book, saleId, lotNo);
}

function refuseToMove(book: Book, saleId: number, lotNo: string) {
  const row = lotByNumber(book, saleId, toLotNo(lotNo));
  if (!row) return noLot(book, saleId, toLotNo(lotNo));
  const standing = standingOutcomeOf(book, row.id);
  const what = standing ? outcomeInWords(book, standing) : 'called';
  const message = `Lot ${lotNo} is already ${what}: it does not come up again unless it is reopened.`;
  return refuse('already', message, 'lotNo');
}

/** Which lots have passed to their buyers. */
import { and, asc, eq, type SQL } from 'drizzle-orm';
import { lotByNumber, lotNoOf } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { lotsIn, type Scope, scoped } from '#db/sale/scope.ts';
import { buyer, log, lot, newestHandover as newest } from '#db/schema/index.ts';
import { piecesOf } from '#lib/buyer/handover.ts';
import { pick } from '#lib/field/fields.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { quantityInWords } from '#lib/lot/words.ts';
import type { SheetTag } from '#lib/settlement/parties.ts';
import { type MendableTag, mendableTags } from '#lib/tag/mend.ts';
import { buyerFile } from './files.ts';

/** The newest row of a lot's handing over. */
export interface HandoverRow {
  readonly handoverId: number;
  readonly lotNo: LotNo;
  readonly buyerNo: number;
  readonly kind: 'handed' | 'returned';
  readonly takenBy: string;
  readonly reason: string;
  readonly at: string;
  /** Who gave it out. */
  readonly worker: string;
}

const columns = {
  ...pick(lot, ['lotNumber', 'lotLetter']),
  handoverId: newest.id,
  buyerNo: buyer.buyerNo,
  ...pick(newest, ['kind', 'takenBy', 'reason', 'at']),
  worker: log.worker,
};

/** From the buyers on, not from the lots: most of a large sale still lies on the tables when the till opens. */
const handedInSale = query(({ db }) =>
  db
    .select(columns)
    .from(buyer)
    .crossJoin(newest)
    .crossJoin(lot)
    .leftJoin(log, eq(log.seq, newest.line))
    .where(and(equals(buyer.saleId, 'saleId'), eq(newest.buyerId, buyer.id), eq(lot.id, newest.lotId)))
    .orderBy(asc(lot.lotNumber), asc(lot.lotLetter)),
);

function findHanded({ db }: Book, which: SQL) {
  return db
    .select(columns)
    .from(lot)
    .innerJoin(newest, eq(newest.lotId, lot.id))
    .innerJoin(buyer, eq(buyer.id, newest.buyerId))
    .leftJoin(log, eq(log.seq, newest.line))
    .where(which)
    .orderBy(asc(lot.lotNumber), asc(lot.lotLetter));
}

const handedInScope = scoped((book, kind) => findHanded(book, lotsIn(kind)));
const handedLot = query((book) => findHanded(book, equals(lot.id, 'lotId')));

/** The newest row of each lot of a sale that was ever handed over, by lot number; of the lots in `scope` alone. */
export function newestHandovers(book: Book, saleId: number, scope: Scope = null): Map<LotNo, HandoverRow> {
  const found = scope === null ? handedInSale(book).all({ saleId }) : handedInScope(book, saleId, scope);
  return new Map(found.map((row) => [lotNoOf(row), rowOf(row)]));
}

/** The newest row of one lot, to whomever it went; undefined where it never left the hall. */
export function newestHandoverOf(book: Book, lotId: number): HandoverRow | undefined {
  const row = handedLot(book).get({ lotId });
  return row && rowOf(row);
}

/** The newest rows of the lots that a buyer number bought, and of those that were ticked for it. */
export function handoversAbout(
  book: Book,
  saleId: number,
  { buyerNo, lots }: { readonly buyerNo: number; readonly lots: readonly LotNo[] },
): Map<LotNo, HandoverRow> {
  const found = newestHandovers(book, saleId, { buyerNo });
  for (const lotNo of lots) {
    const row = found.has(lotNo) ? undefined : lotByNumber(book, saleId, lotNo);
    const handed = row && newestHandoverOf(book, row.id);
    if (handed) found.set(lotNo, handed);
  }
  return found;
}

type Row = ReturnType<ReturnType<typeof handedLot>['all']>[number];

function rowOf({ lotNumber, lotLetter, worker, ...row }: Row): HandoverRow {
  return { ...row, worker: worker ?? '', lotNo: lotNoOf({ lotNumber, lotLetter }) };
}

/** Whether one lot is out of the hall: its newest row says that it was handed over. */
export function isHanded(book: Book, lotId: number): boolean {
  return newestHandoverOf(book, lotId)?.kind === 'handed';
}

export interface HandOverLot {
  readonly lotNo: LotNo;
  readonly goods: string;
  readonly quantity: string;
  /** A lot by weight without a count is one. */
  readonly pieces: number;
  /** Those on its pieces: a tag that was replaced is on none. */
  readonly tags: number;
  readonly tagList: readonly MendableTag[];
  /** How many of them await a replacement. */
  readonly waiting: number;
}

export interface GoneLot extends HandOverLot, Pick<HandoverRow, 'takenBy' | 'at' | 'worker'> {
  /** The buyer it went to, where a correction has named another since; otherwise null. */
  readonly wentTo: number | null;
}

export interface HandOverView {
  readonly here: readonly HandOverLot[];
  readonly gone: readonly GoneLot[];
}

function tagsOf(own: readonly SheetTag[]): Pick<HandOverLot, 'tags' | 'tagList' | 'waiting'> {
  const tagList = mendableTags(own);
  const waiting = own.filter(({ mended }) => mended?.by === null).length;
  const good = own.filter(({ condition }) => condition !== 'broken').length;
  return { tags: good + waiting, tagList, waiting };
}

/** The buyer's lots, or undefined where the sale has no such number. */
export function handOverView(book: Book, saleId: number, buyerNo: number): HandOverView | undefined {
  const file = buyerFile(book, saleId, buyerNo);
  if (!file) return undefined;
  const newest = newestHandovers(book, saleId, { buyerNo });
  const names = new Map(file.goods.map(({ goods, name }) => [goods, name]));
  const lots = file.lots.map((lot) => ({
    lotNo: lot.lotNo,
    goods: names.get(lot.goods) ?? lot.goods,
    quantity: quantityInWords(lot),
    pieces: piecesOf([lot]),
    ...tagsOf(file.tags.filter(({ lotNo }) => lotNo === lot.lotNo)),
  }));
  const gone = lots.flatMap((lot) => {
    const row = newest.get(lot.lotNo);
    if (row?.kind !== 'handed') return [];
    const { takenBy, at, worker } = row;
    return [{ ...lot, takenBy, at, worker, wentTo: row.buyerNo === buyerNo ? null : row.buyerNo }];
  });
  const out = new Set(gone.map(({ lotNo }) => lotNo));
  return { here: lots.filter(({ lotNo }) => !out.has(lotNo)), gone };
}

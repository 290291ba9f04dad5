/** The lot numbers of a sale or a part of it, and where the lots were taken. */
import { and, asc, count, desc, eq, sql } from 'drizzle-orm';
import type { LotNo } from '#lib/lot-number.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { lot, seller } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { lotsIn, type Scope, scoped, scopeValues } from './scope.ts';

const given = sql.placeholder;

export interface NumberOfLot {
  readonly lotNo: LotNo;
  readonly sellerNo: number;
}

const columns = { lotNumber: lot.lotNumber, lotLetter: lot.lotLetter, sellerNo: seller.sellerNo };

function select({ db }: Book) {
  return db.select(columns).from(lot).innerJoin(seller, eq(seller.id, lot.sellerId)).$dynamic();
}

const inScope = scoped((book, kind) =>
  select(book).where(lotsIn(kind)).orderBy(asc(lot.lotNumber), asc(lot.lotLetter)).prepare(),
);

/** In their order. */
export function numbersOfLots(book: Book, saleId: number, scope: Scope): NumberOfLot[] {
  return inScope(book, scope).all(scopeValues(saleId, scope)).map(numberOf);
}

const byNumber = statement((book) =>
  select(book)
    .where(and(eq(lot.saleId, given('saleId')), eq(lot.lotNumber, given('number')), eq(lot.lotLetter, given('letter'))))
    .prepare(),
);

/** One lot, or none where the sale has no such number. */
export function numberOfLot(
  book: Book,
  saleId: number,
  { number, letter }: { number: number; letter: string },
): NumberOfLot[] {
  return byNumber(book).all({ saleId, number, letter }).map(numberOf);
}

const ofSale = eq(lot.saleId, given('saleId'));
const firstLot = statement((book) =>
  select(book).where(ofSale).orderBy(asc(lot.lotNumber), asc(lot.lotLetter)).limit(1).prepare(),
);
const lastLot = statement((book) =>
  select(book).where(ofSale).orderBy(desc(lot.lotNumber), desc(lot.lotLetter)).limit(1).prepare(),
);
const countLots = statement(({ db }) => db.select({ n: count() }).from(lot).where(ofSale).prepare());

/** How many lots a sale has. */
export function howManyLots(book: Book, saleId: number): number {
  return countLots(book).get({ saleId })?.n ?? 0;
}

/** The first and the last of a sale, and how many there are. */
export function endsOfLots(book: Book, saleId: number): { readonly lots: NumberOfLot[]; readonly many: number } {
  const lots = [...firstLot(book).all({ saleId }), ...lastLot(book).all({ saleId })].map(numberOf);
  return { lots, many: howManyLots(book, saleId) };
}

interface Row {
  readonly lotNumber: number;
  readonly lotLetter: string;
  readonly sellerNo: number;
}

function numberOf({ sellerNo, ...number }: Row): NumberOfLot {
  return { lotNo: lotNoOf(number), sellerNo };
}

const findTakenIn = scoped(({ db }, kind) =>
  db
    .select({ lotNumber: lot.lotNumber, lotLetter: lot.lotLetter, takenIn: lot.takenIn })
    .from(lot)
    .where(lotsIn(kind))
    .prepare(),
);

/** Where each lot of a scope was taken, as it was said at Intake; empty where nothing was said. */
export function takenInOf(book: Book, saleId: number, scope: Scope): Map<LotNo, string> {
  const rows = findTakenIn(book, scope).all(scopeValues(saleId, scope));
  return new Map(rows.map((row) => [lotNoOf(row), row.takenIn]));
}

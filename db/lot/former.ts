/** What became of the lots of a sale that were divided or joined. */
import { and, ne } from 'drizzle-orm';
import { lotNoOf } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { lot } from '#db/schema/index.ts';
import { type GoneLot, noSuchLot, parseFormer, type WithFormer, whatBecameOf } from '#lib/lot/former.ts';
import { type LotNo, readLot } from '#lib/lot/number.ts';
import type { Refusal } from '#lib/result/result.ts';

const findFormer = query(({ db }) =>
  db
    .select({ lotNumber: lot.lotNumber, lotLetter: lot.lotLetter, formerNumbers: lot.formerNumbers })
    .from(lot)
    .where(and(equals(lot.saleId, 'saleId'), ne(lot.formerNumbers, '')))
    .orderBy(lot.lotNumber, lot.lotLetter),
);

/** The lots of a sale to which former numbers lead. */
function lotsWithFormer(book: Book, saleId: number): WithFormer[] {
  return findFormer(book)
    .all({ saleId })
    .map((row) => {
      const former = parseFormer(row.formerNumbers);
      return { lotNo: lotNoOf(row), former: former.ok ? former.value : [] };
    });
}

/** Every number of a sale that was divided or joined away. */
export function formerNumbers(book: Book, saleId: number): LotNo[] {
  return lotsWithFormer(book, saleId).flatMap(({ former }) => former.map(({ lotNo }) => lotNo));
}

export function goneLot(book: Book, saleId: number, lotNo: LotNo): GoneLot | undefined {
  return whatBecameOf(lotNo, lotsWithFormer(book, saleId));
}

/** The refusal for a number that is no lot: what became of it, or that there never was one. */
export function noLot(book: Book, saleId: number, lotNo: LotNo, field = 'lotNo'): Refusal {
  return noSuchLot(lotNo, goneLot(book, saleId, lotNo), field);
}

/** What is refused of tickets that were asked for; about a lot number that is no more, what became of it. */
export function orWhatBecame(book: Book, saleId: number, asked: { readonly lot: string; readonly refusal: Refusal }) {
  const read = readLot(asked.lot, saleId);
  return asked.refusal.field === 'lot' && read.ok ? noLot(book, saleId, read.value, 'lot') : asked.refusal;
}

/** The text as the folder has it, by lot number. */
export function formerTexts(book: Book, saleId: number): ReadonlyMap<LotNo, string> {
  return new Map(
    findFormer(book)
      .all({ saleId })
      .map((row) => [lotNoOf(row), row.formerNumbers]),
  );
}

/** A sentence for every number of a sale that is no more, by the number. */
export function goneNumbers(book: Book, saleId: number): Readonly<Record<string, string>> {
  const lots = lotsWithFormer(book, saleId);
  const numbers = lots.flatMap(({ former }) => former.map(({ lotNo }) => lotNo));
  return Object.fromEntries(numbers.map((lotNo) => [lotNo, whatBecameOf(lotNo, lots)?.message ?? '']));
}

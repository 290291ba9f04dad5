/** Which lots have passed to their buyers. */
import { and, asc, eq, isNull } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type { LotNo } from '#lib/lot-number.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { buyer, handover, log, lot } from '../schema/index.ts';

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

/** The newest row of each lot of a sale that was ever handed over, by lot number. */
export function newestHandovers(book: Book, saleId: number): Map<LotNo, HandoverRow> {
  const later = alias(handover, 'later');
  const { lotNumber, lotLetter } = lot;
  const { id: handoverId, kind, takenBy, reason, at } = handover;
  const rows = book.db
    .select({ lotNumber, lotLetter, handoverId, buyerNo: buyer.buyerNo, kind, takenBy, reason, at, worker: log.worker })
    .from(handover)
    .innerJoin(lot, eq(lot.id, handover.lotId))
    .innerJoin(buyer, eq(buyer.id, handover.buyerId))
    .leftJoin(log, eq(log.seq, handover.line))
    .leftJoin(later, eq(later.replacesId, handover.id))
    .where(and(eq(lot.saleId, saleId), isNull(later.id)))
    .orderBy(asc(lotNumber), asc(lotLetter))
    .all();
  return new Map(
    rows.map(({ lotNumber: number, lotLetter: letter, worker, ...row }) => {
      const lotNo = lotNoOf({ lotNumber: number, lotLetter: letter });
      return [lotNo, { ...row, lotNo, worker: worker ?? '' }];
    }),
  );
}

/** Whether one lot is out of the house: its newest row says that it was handed over. */
export function isHanded(book: Book, lotId: number): boolean {
  const later = alias(handover, 'later');
  const row = book.db
    .select({ kind: handover.kind })
    .from(handover)
    .leftJoin(later, eq(later.replacesId, handover.id))
    .where(and(eq(handover.lotId, lotId), isNull(later.id)))
    .get();
  return row?.kind === 'handed';
}

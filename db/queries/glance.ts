/** The afternoon at a glance: how many lots are done and left, how fast it goes, what it brought so far. */
import { showMoney } from '#lib/money.ts';
import { LOTS_LOOKED_AT, type Pace, paceOf } from '#lib/pace.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import { floorOf } from './floor.ts';

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
  const { many, totalCents, firstId } = floorOf(book, sale).called;
  return { ...many, left, pace: paceOf(newestMs(book, sale.id, firstId), left), total: showMoney(totalCents) };
}

const NEWEST = `
  SELECT outcome.at FROM outcome CROSS JOIN lot ON lot.id = outcome.lot_id
  WHERE lot.sale_id = :saleId AND outcome.id >= :firstId AND outcome.kind <> 'reopened'
    AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)
  ORDER BY outcome.id DESC LIMIT ${LOTS_LOOKED_AT}`;

/**
 * When the newest lots were called, no more of them than the pace is taken from. They are looked for no further back
 * than the sale's first: a sale that has just begun would have those of all earlier seasons gone through at each lot.
 */
function newestMs(book: Book, saleId: number, firstId: number): number[] {
  if (!Number.isFinite(firstId)) return [];
  const find = book.prepared('glance at the newest', () => book.sqlite.prepare<[object], string>(NEWEST).pluck());
  return find.all({ saleId, firstId }).map((at) => Date.parse(at));
}

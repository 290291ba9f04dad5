/** The lots of a sealed sale that follow from its written bids alone: sum 9. */
import { awardLot } from '#lib/award.ts';
import type { Bid, Lot } from '#lib/facts.ts';
import { groupBy } from '#lib/group.ts';
import type { LotNo } from '#lib/lot-number.ts';
import type { Cents } from '#lib/money.ts';
import type { RowOf } from './tables.ts';

export interface AwardedLot {
  readonly lotNo: LotNo;
  readonly priceCents: Cents;
  readonly buyerNo: number;
}

export function bidOfRow(row: RowOf<'bids'>): Bid {
  return { lotNo: row.lot_no, buyerNo: row.buyer_no, priceCents: row.price, receivedAt: row.received_at };
}

/** The awards by lot number; a lot whose best bid is below its minimum waits and is not among them. */
export function awardsOf(
  lots: readonly Pick<Lot, 'lotNo' | 'minimumCents'>[],
  bids: readonly Bid[],
): Map<LotNo, AwardedLot> {
  const byLot = groupBy(bids, ({ lotNo }) => lotNo);
  const awards = new Map<LotNo, AwardedLot>();
  for (const lot of lots) {
    const award = awardLot(lot, byLot.get(lot.lotNo) ?? []);
    if (award.kind !== 'awarded') continue;
    const { priceCents, buyerNo } = award;
    awards.set(lot.lotNo, { lotNo: lot.lotNo, priceCents, buyerNo });
  }
  return awards;
}

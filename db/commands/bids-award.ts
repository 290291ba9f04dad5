import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { decideAwards } from '#lib/decide-award.ts';
import { decideBidsOver } from '#lib/decide-bid.ts';
import type { Bid } from '#lib/facts.ts';
import { cents } from '#lib/money.ts';
import { accept, refuse } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { rowId } from '../inputs.ts';
import { buyerByNumber, lotById, type SaleRow, saleById } from '../queries/find.ts';
import { timeZoneOf } from '../queries/local-days.ts';
import { openLots } from '../queries/open-lots.ts';
import { newestOutcome } from '../queries/outcome.ts';
import { holdsOfLotId } from '../queries/tags.ts';
import { writtenBids } from '../queries/written-bids.ts';
import { PLAIN, saveOutcome } from '../save/outcome.ts';
import { sale as saleTable } from '../schema/index.ts';

const input = z.strictObject({ saleId: rowId });

/** Closes the written bids and awards every lot that its bids decide; the others wait for their sellers. */
export const bidsAward = defineCommand({
  name: 'bids.award',
  summary: 'Closes the written bids of a sale and awards its lots in one act.',
  logLabel: 'Written bids awarded',
  stations: ['block', 'office'],
  input,
  run(context, { saleId }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const bids = writtenBids(context.book, saleId);
    const open = lotsToAward(context, sale);
    const decided = decideAwards({ stage: sale.stage, bidding: sale.bidding, open, bids });
    if (!decided.ok) return decided;
    const times = { at: context.at, closeAt: sale.bidsCloseAt, closedAt: sale.bidsClosedAt };
    const over = decideBidsOver({ ...times, timeZone: timeZoneOf(context.book) }, 'award');
    if (!over.ok) return over;
    const ids = new Map(open.map(({ lotNo, lotId }) => [lotNo, lotId]));
    const counts = { awarded: 0, belowMinimum: 0, noBid: 0, onHold: 0 };
    for (const { lotNo, award } of decided.value) {
      if (award.kind === 'awarded') saveAward(context, { saleId, lotId: ids.get(lotNo) ?? 0, ...award });
      counts[COUNTED[award.kind]] += 1;
    }
    const closed = { bidsClosedAt: sale.bidsClosedAt ?? context.at, line: context.line };
    context.book.db.update(saleTable).set(closed).where(eq(saleTable.id, saleId)).run();
    return accept({ saleId, ...counts });
  },
});

const COUNTED = { awarded: 'awarded', below_minimum: 'belowMinimum', no_bid: 'noBid', on_hold: 'onHold' } as const;

/** The open lots with what decides them. */
function lotsToAward({ book }: CommandContext, sale: SaleRow) {
  return openLots(book, sale).flatMap(({ lotId, lotNo }) => {
    const row = lotById(book, lotId);
    if (!row) return [];
    const minimumCents = row.minimumCents === null ? null : cents(row.minimumCents);
    return [{ lotId, lotNo, minimumCents, onHold: holdsOfLotId(book, row).length > 0 }];
  });
}

interface Awarded extends Pick<Bid, 'buyerNo' | 'priceCents'> {
  readonly saleId: number;
  readonly lotId: number;
}

function saveAward(context: CommandContext, { saleId, lotId, buyerNo, priceCents }: Awarded): void {
  const buyerId = buyerByNumber(context.book, saleId, buyerNo)?.id ?? null;
  const replacesId = newestOutcome(context.book, lotId)?.id ?? null;
  saveOutcome(context, lotId, { ...PLAIN, kind: 'sold', priceCents, buyerId, awarded: true, replacesId });
}

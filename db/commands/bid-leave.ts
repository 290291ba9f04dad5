import { z } from 'zod';
import { decideBidInTime } from '#lib/decide-bid.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { lotNumber, partyNumber, price, rowId } from '../inputs.ts';
import { buyerByNumber, lotByNumber, saleById } from '../queries/find.ts';
import { timeZoneOf } from '../queries/local-days.ts';
import { outcomeInWords, standingOutcome } from '../queries/outcome.ts';
import { saveBid } from '../save/outcome.ts';

const input = z.strictObject({
  saleId: rowId,
  lotNo: lotNumber,
  buyerNo: partyNumber,
  kind: z.enum(['written', 'left', 'under']),
  price,
});

/** Takes down a bid that a buyer wrote or left, or the under-bid. It says nothing of who gets the lot. */
export const bidLeave = defineCommand({
  name: 'bid.leave',
  summary: 'Takes down a written bid, a left bid or an under-bid on a lot.',
  logLabel: 'Bid left',
  stations: ['block', 'till', 'office'],
  input,
  run(context, { saleId, lotNo, buyerNo, kind, price: priceCents }) {
    const lot = lotByNumber(context.book, saleId, lotNo);
    if (!lot) return refuse('unknown', `There is no lot ${lotNo}: check the number on the ticket.`, 'lotNo');
    const buyer = buyerByNumber(context.book, saleId, buyerNo);
    if (!buyer) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    const sale = saleById(context.book, saleId);
    const times = { closeAt: sale?.bidsCloseAt ?? null, closedAt: sale?.bidsClosedAt ?? null };
    const inTime = decideBidInTime({ kind, at: context.at, ...times, timeZone: timeZoneOf(context.book) });
    if (!inTime.ok) return inTime;
    const standing = standingOutcome(context.book, lot.id);
    if (standing && kind !== 'under') {
      const what = outcomeInWords(context.book, standing);
      return refuse('already', `Lot ${lotNo} is already ${what}: no bid can be left on it.`, 'lotNo');
    }
    const fields = { lotId: lot.id, buyerId: buyer.id, kind, priceCents, receivedAt: context.at };
    return accept({ bidId: saveBid(context, fields) });
  },
});

import { z } from 'zod';
import { decideRetract, standingBids } from '#lib/decide-retract.ts';
import { cents } from '#lib/money.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId } from '../inputs.ts';
import { lotNoOf } from '../lot-no.ts';
import { bidById, bidsOfLot } from '../queries/bids.ts';
import { lotById } from '../queries/find.ts';
import { outcomeInWords, standingOutcome } from '../queries/outcome.ts';
import { saveBid } from '../save/outcome.ts';

const input = z.strictObject({ bidId: rowId });

/** Takes a bid back by a further row. No bid that its bidder made before it counts again. */
export const bidRetract = defineCommand({
  name: 'bid.retract',
  summary: 'Takes back a bid before the hammer falls, which revives no earlier bid.',
  logLabel: 'Bid taken back',
  stations: ['block', 'till', 'office'],
  input,
  run(context, { bidId }) {
    const { book } = context;
    const bid = bidById(book, bidId);
    const lot = bid && lotById(book, bid.lotId);
    if (!bid || !lot) return refuse('unknown', 'This bid is not in the book: choose it from the list.', 'bidId');
    const outcome = standingOutcome(book, lot.id);
    const standing = outcome ? outcomeInWords(book, outcome) : null;
    const decided = decideRetract({ lotNo: lotNoOf(lot), standing, rows: bidsOfLot(book, lot.id), bidId });
    if (!decided.ok) return decided;
    const { lotId, buyerId, kind } = bid;
    const fields = { lotId, buyerId, kind, priceCents: cents(bid.priceCents), receivedAt: context.at };
    const retractionId = saveBid(context, { ...fields, retractsId: bidId });
    return accept({ bidId: retractionId, lotId, bidsLeft: standingBids(bidsOfLot(book, lotId)).length });
  },
});

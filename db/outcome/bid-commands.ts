import * as z from 'zod';
import { defineCommand } from '#db/book/command.ts';
import { buyerByNumber, lotById, lotByNumber, lotNoOf, saleById } from '#db/book/find.ts';
import { lotNumber, moment, partyNumber, price, rowId, text } from '#db/book/inputs.ts';
import { addRow } from '#db/book/rows.ts';
import { noLot } from '#db/lot/former.ts';
import { bid as bidTable } from '#db/schema/index.ts';
import { areClosed, decideChange, decideHandedIn, decideRetract, standingBids } from '#lib/outcome/bid.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { bidById, bidsOfLot } from './bids.ts';
import { outcomeInWords, standingOutcomeOf } from './queries.ts';
import { bidTimes } from './written.ts';

/** Takes down a bid that a buyer wrote or left, or the under-bid. It says nothing of who gets the lot. */
export const bidLeave = defineCommand({
  name: 'bid.leave',
  summary: 'Takes down a written bid, a left bid or an under-bid on a lot.',
  logLabel: 'Bid left',
  stations: ['block', 'till', 'office'],
  input: z.strictObject({
    saleId: rowId,
    lotNo: lotNumber,
    buyerNo: partyNumber,
    kind: z.enum(['written', 'left', 'under']),
    price,
    /** Of a written or left bid: the time on its paper, where that was not just now. Equal ones go by it. */
    handedInAt: moment.optional(),
  }),
  run(context, { saleId, lotNo, buyerNo, kind, price: priceCents, handedInAt }) {
    const lot = lotByNumber(context.book, saleId, lotNo);
    if (!lot) return noLot(context.book, saleId, lotNo);
    const buyer = buyerByNumber(context.book, saleId, buyerNo);
    if (!buyer) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    const sale = saleById(context.book, saleId);
    const handedIn = decideHandedIn({ kind, handedInAt, ...bidTimes(context, sale) });
    if (!handedIn.ok) return handedIn;
    const standing = standingOutcomeOf(context.book, lot.id);
    if (standing && kind !== 'under') {
      const what = outcomeInWords(context.book, standing);
      return refuse('already', `Lot ${lotNo} is already ${what}: no bid can be left on it.`, 'lotNo');
    }
    const fields = { lotId: lot.id, buyerId: buyer.id, kind, priceCents, receivedAt: handedIn.value };
    return accept({ bidId: addRow(context, bidTable, fields) });
  },
});

/** Takes a bid back by a further row. No bid that its bidder made before it counts again. */
export const bidRetract = defineCommand({
  name: 'bid.retract',
  summary: 'Takes back a bid before the hammer falls, which revives no earlier bid.',
  logLabel: 'Bid taken back',
  stations: ['block', 'till', 'office'],
  input: z.strictObject({ bidId: rowId, reason: text }),
  run(context, { bidId, reason }) {
    const { book } = context;
    const bid = bidById(book, bidId);
    const lot = bid && lotById(book, bid.lotId);
    if (!bid || !lot) return refuse('unknown', 'This bid is not in the book: choose it from the list.', 'bidId');
    const outcome = standingOutcomeOf(book, lot.id);
    const standing = outcome ? outcomeInWords(book, outcome) : null;
    const decided = decideRetract({ lotNo: lotNoOf(lot), standing, rows: bidsOfLot(book, lot.id), bidId });
    if (!decided.ok) return decided;
    const { lotId, buyerId, kind, priceCents } = bid;
    const closed = kind === 'written' && areClosed(bidTimes(context, saleById(book, lot.saleId)));
    const change = decideChange(closed, reason);
    if (!change.ok) return change;
    const fields = { lotId, buyerId, kind, priceCents, reason, receivedAt: context.at };
    const retractionId = addRow(context, bidTable, { ...fields, retractsId: bidId });
    return accept({ bidId: retractionId, lotId, bidsLeft: standingBids(bidsOfLot(book, lotId)).length });
  },
});

/** Moves a written bid that was typed on the wrong lot, in one act: it keeps its time, and no earlier bid goes with it. */
export const bidMove = defineCommand({
  name: 'bid.move',
  summary: 'Moves a written bid that was typed on the wrong lot to the right one; it keeps its time.',
  logLabel: 'Bid moved',
  stations: ['block', 'office'],
  input: z.strictObject({ bidId: rowId, lotNo: lotNumber, reason: text }),
  run(context, { bidId, lotNo, reason }) {
    const { book } = context;
    const bid = bidById(book, bidId);
    const from = bid && lotById(book, bid.lotId);
    if (!bid || !from) return refuse('unknown', 'This bid is not in the book: choose it from the list.', 'bidId');
    if (bid.kind !== 'written') {
      return refuse('not_allowed', 'Only a written bid is moved: take this one back, and leave it again.', 'bidId');
    }
    const to = lotByNumber(book, from.saleId, lotNo);
    if (!to) return noLot(book, from.saleId, lotNo);
    if (to.id === from.id) return refuse('malformed', `The bid is on lot ${lotNo}: type another lot.`, 'lotNo');
    const times = bidTimes(context, saleById(book, from.saleId));
    if (times.awardedAt !== null) {
      return refuse('wrong_stage', 'The lots are awarded: correct the outcome of the lot instead.', 'bidId');
    }
    const change = decideChange(areClosed(times), reason);
    if (!change.ok) return change;
    const [outcome, taken] = [standingOutcomeOf(book, from.id), standingOutcomeOf(book, to.id)];
    if (taken) return refuse('already', `Lot ${lotNo} is already ${outcomeInWords(book, taken)}.`, 'lotNo');
    const standing = outcome ? outcomeInWords(book, outcome) : null;
    const decided = decideRetract({ lotNo: lotNoOf(from), standing, rows: bidsOfLot(book, from.id), bidId });
    if (!decided.ok) return decided;
    const { buyerId, kind, priceCents, receivedAt } = bid;
    const both = { buyerId, kind, priceCents, reason, moved: true };
    addRow(context, bidTable, { ...both, lotId: from.id, receivedAt: context.at, retractsId: bidId });
    return accept({ bidId: addRow(context, bidTable, { ...both, lotId: to.id, receivedAt }), lotId: to.id });
  },
});

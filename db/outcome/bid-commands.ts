import * as z from 'zod';
import { type CommandContext, defineCommand, defineSaleCommand } from '#db/book/command.ts';
import { buyerByNumber, lotById, lotByNumber, lotNoOf, type SaleRow, saleById } from '#db/book/find.ts';
import { lotNumber, moment, partyNumber, price, rowId } from '#db/book/inputs.ts';
import { addRow, updateRow } from '#db/book/rows.ts';
import { noLot } from '#db/lot/former.ts';
import { openLots } from '#db/lot/open-lots.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { bid as bidTable, sale as saleTable } from '#db/schema/index.ts';
import { holdsOfLotId } from '#db/tag/queries.ts';
import { decideAwards } from '#lib/outcome/award.ts';
import { decideBidInTime, decideBidsOver, decideClosing, decideRetract, standingBids } from '#lib/outcome/bid.ts';
import { accept, refuse } from '#lib/result/result.ts';
import type { Bid } from '#lib/sale/facts.ts';
import { bidById, bidsOfLot, writtenBids } from './bids.ts';
import { PLAIN, saveOutcome } from './commands.ts';
import { newestOutcomeOf, outcomeInWords, standingOutcomeOf } from './queries.ts';

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
  }),
  run(context, { saleId, lotNo, buyerNo, kind, price: priceCents }) {
    const lot = lotByNumber(context.book, saleId, lotNo);
    if (!lot) return noLot(context.book, saleId, lotNo);
    const buyer = buyerByNumber(context.book, saleId, buyerNo);
    if (!buyer) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    const sale = saleById(context.book, saleId);
    const times = { closeAt: sale?.bidsCloseAt ?? null, closedAt: sale?.bidsClosedAt ?? null };
    const inTime = decideBidInTime({ kind, at: context.at, ...times, timeZone: timeZoneOf(context.book) });
    if (!inTime.ok) return inTime;
    const standing = standingOutcomeOf(context.book, lot.id);
    if (standing && kind !== 'under') {
      const what = outcomeInWords(context.book, standing);
      return refuse('already', `Lot ${lotNo} is already ${what}: no bid can be left on it.`, 'lotNo');
    }
    const fields = { lotId: lot.id, buyerId: buyer.id, kind, priceCents, receivedAt: context.at };
    return accept({ bidId: addRow(context, bidTable, fields) });
  },
});

/** Takes a bid back by a further row. No bid that its bidder made before it counts again. */
export const bidRetract = defineCommand({
  name: 'bid.retract',
  summary: 'Takes back a bid before the hammer falls, which revives no earlier bid.',
  logLabel: 'Bid taken back',
  stations: ['block', 'till', 'office'],
  input: z.strictObject({ bidId: rowId }),
  run(context, { bidId }) {
    const { book } = context;
    const bid = bidById(book, bidId);
    const lot = bid && lotById(book, bid.lotId);
    if (!bid || !lot) return refuse('unknown', 'This bid is not in the book: choose it from the list.', 'bidId');
    const outcome = standingOutcomeOf(book, lot.id);
    const standing = outcome ? outcomeInWords(book, outcome) : null;
    const decided = decideRetract({ lotNo: lotNoOf(lot), standing, rows: bidsOfLot(book, lot.id), bidId });
    if (!decided.ok) return decided;
    const { lotId, buyerId, kind, priceCents } = bid;
    const fields = { lotId, buyerId, kind, priceCents, receivedAt: context.at };
    const retractionId = addRow(context, bidTable, { ...fields, retractsId: bidId });
    return accept({ bidId: retractionId, lotId, bidsLeft: standingBids(bidsOfLot(book, lotId)).length });
  },
});

/** Closes the written bids and awards every lot that its bids decide; the others wait for their sellers. */
export const bidsAward = defineSaleCommand({
  name: 'bids.award',
  summary: 'Closes the written bids of a sale and awards its lots in one act.',
  logLabel: 'Written bids awarded',
  stations: ['block', 'office'],
  input: z.strictObject({ saleId: rowId }),
  run({ sale, ...context }, { saleId }) {
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
    updateRow(context, saleTable, saleId, { bidsClosedAt: sale.bidsClosedAt ?? context.at });
    return accept({ saleId, ...counts });
  },
});

const COUNTED = { awarded: 'awarded', below_minimum: 'belowMinimum', no_bid: 'noBid', on_hold: 'onHold' } as const;

/** The open lots with what decides them. */
function lotsToAward({ book }: CommandContext, sale: SaleRow) {
  return openLots(book, sale).flatMap(({ lotId, lotNo }) => {
    const row = lotById(book, lotId);
    if (!row) return [];
    return [{ lotId, lotNo, minimumCents: row.minimumCents, onHold: holdsOfLotId(book, row).length > 0 }];
  });
}

interface Awarded extends Pick<Bid, 'buyerNo' | 'priceCents'> {
  readonly saleId: number;
  readonly lotId: number;
}

function saveAward(context: CommandContext, { saleId, lotId, buyerNo, priceCents }: Awarded): void {
  const buyerId = buyerByNumber(context.book, saleId, buyerNo)?.id ?? null;
  const replacesId = newestOutcomeOf(context.book, lotId)?.id ?? null;
  saveOutcome(context, lotId, { ...PLAIN, kind: 'sold', priceCents, buyerId, awarded: true, replacesId });
}

export const bidsClosing = defineSaleCommand({
  name: 'bids.closing',
  summary: 'Says when the written bids of a sale close, and until when its sellers answer.',
  logLabel: 'Closing of the written bids set',
  stations: ['block', 'office'],
  input: z.strictObject({
    saleId: rowId,
    /** Null where the bids are open until somebody closes them. */
    closesAt: moment.nullable(),
    answerBy: moment.nullable().default(null),
  }),
  run({ book, sale: row, line }, { saleId, closesAt, answerBy }) {
    const times = { closedAt: row.bidsClosedAt, closesAt, answerBy, timeZone: timeZoneOf(book) };
    const decided = decideClosing({ bidding: row.bidding, ...times });
    if (!decided.ok) return decided;
    updateRow({ book, line }, saleTable, saleId, { bidsCloseAt: closesAt, sellersAnswerBy: answerBy });
    return accept({ saleId, closesAt, answerBy });
  },
});

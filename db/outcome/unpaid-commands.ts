import * as z from 'zod';
import { defineSaleCommand } from '#db/book/command.ts';
import { buyerByNumber, lotByNumber } from '#db/book/find.ts';
import { lotNumber, partyNumber, rowId, someReason } from '#db/book/inputs.ts';
import { owingOf } from '#db/buyer/accounts.ts';
import { isHanded } from '#db/buyer/handover.ts';
import { decideUnpaid, FATES } from '#lib/outcome/unpaid.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { PLAIN, saveOutcome } from './commands.ts';
import { standingOutcomeOf } from './queries.ts';

const MOST_LOTS = 500;

/** Puts lots down as not paid for: the seller is charged nothing, and the buyer's bill falls away by them. */
export const outcomeUnpaid = defineSaleCommand({
  name: 'outcome.unpaid',
  summary: 'Says that a buyer never paid for lots that are still here, why, and what becomes of the fur.',
  logLabel: 'Not paid for',
  stations: ['till', 'office'],
  input: z.strictObject({
    saleId: rowId,
    buyerNo: partyNumber,
    /** Those that were seen: a lot that the buyer was given meanwhile is not among them. */
    lots: z.array(lotNumber).max(MOST_LOTS, { error: `Name at most ${MOST_LOTS} lots at once.` }),
    fate: z.enum(FATES, { error: 'Say what becomes of the fur.' }),
    reason: someReason,
  }),
  run({ sale, ...context }, { saleId, buyerNo, lots, fate, reason }) {
    const { book } = context;
    const buyer = buyerByNumber(book, saleId, buyerNo);
    if (!buyer) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    const said = [...new Set(lots)].map((lotNo) => {
      const lot = lotByNumber(book, saleId, lotNo);
      const standing = lot && standingOutcomeOf(book, lot.id);
      const theirs = standing?.kind === 'sold' && standing.buyerId === buyer.id ? standing : undefined;
      return { lotNo, lot, theirs };
    });
    const about = said.map(({ lotNo, lot, theirs }) => ({
      ...{ lotNo, theirs: theirs !== undefined, handed: lot !== undefined && isHanded(book, lot.id) },
    }));
    const owingCents = owingOf(book, sale, buyer);
    const decided = decideUnpaid({ stage: sale.stage, buyerNo, owingCents, lots: about }, fate);
    if (!decided.ok) return decided;
    const outcomes = said.flatMap(({ theirs }) => {
      if (!theirs) return [];
      const { lotId, priceCents, buyerId } = theirs;
      const fields = { ...PLAIN, kind: 'unpaid', priceCents, buyerId, fate, replacesId: theirs.id, reason } as const;
      const outcomeId = saveOutcome(context, lotId, fields);
      if (fate !== 'again') return [{ outcomeId, lotId }];
      // Both are kept: that it was not paid for, and that it is to be called again.
      const nobody = { kind: 'reopened', priceCents: null, buyerId: null } as const;
      return [
        { outcomeId: saveOutcome(context, lotId, { ...PLAIN, ...nobody, replacesId: outcomeId, reason }), lotId },
      ];
    });
    return accept({ buyerNo, outcomes });
  },
});

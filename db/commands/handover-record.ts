import { z } from 'zod';
import { decideHandover } from '#lib/buyer/decide-handover.ts';
import type { BuyerFile } from '#lib/buyer/input.ts';
import { invoiceOf } from '#lib/buyer/invoice-paper.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { negate, sumCents } from '#lib/money.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { lotNumber, partyNumber, pieces, rowId, someText } from '../inputs.ts';
import { buyerFile } from '../queries/buyer-files.ts';
import { buyerByNumber, lotByNumber, type SaleRow, saleById } from '../queries/find.ts';
import { type HandoverRow, handoversAbout } from '../queries/handed.ts';
import { saveHandover } from '../save/buyer-and-payment.ts';

const MOST_LOTS = 500;

const input = z.strictObject({
  saleId: rowId,
  buyerNo: partyNumber,
  /** The lots that were ticked or scanned. */
  lots: z.array(lotNumber).max(MOST_LOTS, { error: `Hand over at most ${MOST_LOTS} lots at once.` }),
  /** The pieces counted at the counter, all lots together; a lot by weight without a count is one. */
  pieces,
  takenBy: someText,
});

/** Hands lots to their buyer: only what is paid, unless the sale says otherwise, and only with the count right. */
export const handoverRecord = defineCommand({
  name: 'handover.record',
  summary: 'Hands lots over to their buyer, with who took them and how many pieces were counted.',
  logLabel: 'Handed over',
  stations: ['till', 'office'],
  input,
  run(context, { saleId, buyerNo, lots, pieces: counted, takenBy }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const buyer = buyerByNumber(context.book, saleId, buyerNo);
    const file = buyerFile(context.book, saleId, buyerNo);
    if (!buyer || !file) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    const unknown = lots.find((lotNo) => !lotByNumber(context.book, saleId, lotNo));
    if (unknown) return refuse('unknown', `There is no lot ${unknown} in this sale: check the ticket.`, 'lots');
    const before = handoversAbout(context.book, saleId, { buyerNo, lots });
    const decided = decideHandover(sceneOf({ sale, file, lots, counted, before }));
    if (!decided.ok) return decided;
    const handed = lots.map((lotNo) => {
      const lotId = lotByNumber(context.book, saleId, lotNo)?.id ?? 0;
      const replacesId = before.get(lotNo)?.handoverId ?? null;
      return saveHandover(context, { lotId, buyerId: buyer.id, kind: 'handed', replacesId, takenBy, reason: '' });
    });
    return accept({ buyerNo, handovers: handed });
  },
});

interface Asked {
  readonly sale: SaleRow;
  readonly file: BuyerFile;
  readonly lots: readonly LotNo[];
  readonly counted: number;
  readonly before: ReadonlyMap<LotNo, HandoverRow>;
}

function sceneOf({ sale, file, lots, counted, before }: Asked) {
  const isOut = (lotNo: LotNo) => before.get(lotNo)?.kind === 'handed';
  const own = new Map(file.lots.map((lot) => [lot.lotNo, lot]));
  const ticked = new Set(lots);
  // What the buyer has carried away before counts with what is asked for now: together they must be paid.
  const leaving = file.lots.filter(({ lotNo }) => ticked.has(lotNo) || isOut(lotNo));
  const paid = file.payments.map(({ direction, amountCents }) =>
    direction === 'in' ? amountCents : negate(amountCents),
  );
  return {
    stage: sale.stage,
    buyerNo: file.buyer.buyerNo,
    lots: lots.map((lotNo) => ({
      lotNo,
      buyerNo: own.has(lotNo) ? file.buyer.buyerNo : null,
      handed: isOut(lotNo),
      count: own.get(lotNo)?.count ?? null,
    })),
    pieces: counted,
    unpaidAllowed: sale.handOverUnpaid,
    paidCents: sumCents(paid),
    neededCents: invoiceOf({ ...file, lots: leaving }).totalCents,
  };
}

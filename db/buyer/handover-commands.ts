import * as z from 'zod';
import { defineSaleCommand } from '#db/book/command.ts';
import { buyerByNumber, lotByNumber, type SaleRow } from '#db/book/find.ts';
import { lotNumber, partyNumber, pieces, rowId, someReason, someText } from '#db/book/inputs.ts';
import { addRow } from '#db/book/rows.ts';
import { noLot } from '#db/lot/former.ts';
import { handover } from '#db/schema/index.ts';
import type { BuyerFile } from '#lib/buyer/buyer.ts';
import { decideHandover, decideReturn, type HandoverContext } from '#lib/buyer/handover.ts';
import { invoiceOf } from '#lib/invoice/paper.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { subtractCents } from '#lib/money/money.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { paidIn, splitPaid } from '#lib/seller/account.ts';
import { buyerFile } from './files.ts';
import { type HandoverRow, handoversAbout, newestHandoverOf } from './handover.ts';

const MOST_LOTS = 500;

/** Hands lots to their buyer: only what is paid, unless the sale says otherwise, and only with the count right. */
export const handoverRecord = defineSaleCommand({
  name: 'handover.record',
  summary: 'Hands lots over to their buyer, with who took them and how many pieces were counted.',
  logLabel: 'Handed over',
  stations: ['till', 'office'],
  input: z.strictObject({
    saleId: rowId,
    buyerNo: partyNumber,
    /** The lots that were ticked or scanned. */
    lots: z.array(lotNumber).max(MOST_LOTS, { error: `Hand over at most ${MOST_LOTS} lots at once.` }),
    /** The pieces counted at the counter, all lots together; a lot by weight without a count is one. */
    pieces,
    takenBy: someText,
  }),
  run({ sale, ...context }, { saleId, buyerNo, lots, pieces: counted, takenBy }) {
    const buyer = buyerByNumber(context.book, saleId, buyerNo);
    const file = buyerFile(context.book, saleId, buyerNo);
    if (!buyer || !file) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    const unknown = lots.find((lotNo) => !lotByNumber(context.book, saleId, lotNo));
    if (unknown) return noLot(context.book, saleId, unknown, 'lots');
    const before = handoversAbout(context.book, saleId, { buyerNo, lots });
    const decided = decideHandover(contextOf(sale, file, before, { lots, counted }));
    if (!decided.ok) return decided;
    const handed = lots.map((lotNo) => {
      const lotId = lotByNumber(context.book, saleId, lotNo)?.id ?? 0;
      const replacesId = before.get(lotNo)?.handoverId ?? null;
      const fields = { lotId, buyerId: buyer.id, kind: 'handed', replacesId, takenBy, at: context.at } as const;
      return addRow(context, handover, fields);
    });
    return accept({ buyerNo, handovers: handed });
  },
});

type Asked = { readonly lots: readonly LotNo[]; readonly counted: number };

function contextOf(
  sale: SaleRow,
  file: BuyerFile,
  before: ReadonlyMap<LotNo, HandoverRow>,
  { lots, counted }: Asked,
): HandoverContext {
  const isOut = (lotNo: LotNo) => before.get(lotNo)?.kind === 'handed';
  const own = new Map(file.lots.map((lot) => [lot.lotNo, lot]));
  const ticked = new Set(lots);
  // What the buyer has carried away before counts with what is asked for now: together they must be paid.
  const leaving = file.lots.filter(({ lotNo }) => ticked.has(lotNo) || isOut(lotNo));
  const { givenUpCents } = splitPaid(file.payments);
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
    paidCents: subtractCents(paidIn(file.payments), givenUpCents),
    givenUpCents,
    neededCents: invoiceOf({ ...file, lots: leaving }).totalCents,
  };
}

/** Takes a lot back over the counter, with the reason: handed over by mistake, or brought back. */
export const handoverReturn = defineSaleCommand({
  name: 'handover.return',
  summary: 'Takes a lot back that was handed over, with the reason.',
  logLabel: 'Taken back',
  stations: ['till', 'office'],
  input: z.strictObject({ saleId: rowId, lotNo: lotNumber, reason: someReason }),
  run(context, { saleId, lotNo, reason }) {
    const lot = lotByNumber(context.book, saleId, lotNo);
    if (!lot) return noLot(context.book, saleId, lotNo);
    const newest = newestHandoverOf(context.book, lot.id);
    const decided = decideReturn(lotNo, newest?.kind === 'handed');
    if (!decided.ok) return decided;
    const buyer = newest && buyerByNumber(context.book, saleId, newest.buyerNo);
    if (!newest || !buyer) throw new RangeError(`lot ${lotNo} was handed to nobody`);
    const fields = { lotId: lot.id, buyerId: buyer.id, kind: 'returned', replacesId: newest.handoverId } as const;
    return accept({ handoverId: addRow(context, handover, { ...fields, reason, at: context.at }), lotNo });
  },
});

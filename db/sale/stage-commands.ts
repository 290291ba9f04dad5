import * as z from 'zod';
import { postRest } from '#db/account/post.ts';
import { type CommandContext, defineSaleCommand } from '#db/book/command.ts';
import type { SaleRow } from '#db/book/find.ts';
import { flag, rowId, text } from '#db/book/inputs.ts';
import { canonical } from '#db/book/log.ts';
import { addRow, updateRow } from '#db/book/rows.ts';
import { tillView } from '#db/buyer/queries.ts';
import { openLots } from '#db/lot/open-lots.ts';
import { paperGround } from '#db/lot/papers.ts';
import { savePlace } from '#db/lot/save.ts';
import { closingFacts } from '#db/report/closing.ts';
import { closing as closingTable, sale as saleTable } from '#db/schema/index.ts';
import { namesOfSellers } from '#db/settlement/sheets.ts';
import { RUNNING_ORDERS } from '#lib/lot/running-order.ts';
import { decideClose, unfinishedOf } from '#lib/report/closing-line.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { closingReport } from '#lib/report/closing-report.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { CLOSE_QUESTIONS, type CloseQuestion, decideEndBidding, decideStage, STAGES } from '#lib/sale/stage.ts';
import { dayIn } from './queries.ts';

const LEFT_ASKED = { error: 'Type how many lots have not been called.' };

/** Takes the sale to its next stage, or back one with a reason. What keeps it from closing is `decideClose`. */
export const saleStage = defineSaleCommand({
  name: 'sale.stage',
  summary: 'Moves a sale to its next stage, or back one with a reason; it closes only when its balance is at zero.',
  logLabel: 'Sale taken to',
  stations: ['office'],
  input: z.strictObject({
    saleId: rowId,
    stage: z.enum(STAGES),
    reason: text,
    /** How many lots have not been called, as the person typed it to end the bidding without them. */
    left: z.int(LEFT_ASKED).min(0, LEFT_ASKED).max(1_000_000, LEFT_ASKED).nullable().default(null),
    /** The questions before a closing that were answered with yes. */
    answered: z.array(z.enum(CLOSE_QUESTIONS)).max(CLOSE_QUESTIONS.length).default([]),
  }),
  run(context, { saleId, stage, reason, left, answered }) {
    const { sale: found } = context;
    const decided = decideStage(found.stage, stage, reason);
    if (!decided.ok) return decided;
    const ends = found.stage === 'selling' && stage === 'settling';
    const ended = ends ? decideEndBidding(openLots(context.book, found).length, left) : accept(null);
    if (!ended.ok) return ended;
    const closed = stage === 'closed' ? close(context, found, answered) : accept(null);
    if (!closed.ok) return closed;
    if (found.stage === 'closed') {
      addRow(context, closingTable, { saleId, kind: 'reopened', reason, worker: context.worker, at: context.at });
    }
    updateRow(context, saleTable, saleId, { stage });
    return accept({ saleId, stage });
  },
});

/** Keeps the closing report as it is now; refused while something is open, and asks about what else is unfinished. */
function close(context: CommandContext, row: SaleRow, answered: readonly CloseQuestion[]): Result<null> {
  const { book, at, worker } = context;
  const closing = closingFacts(book, row.id);
  const lines = closingLines(closing);
  const unfinished = unfinishedOf(closing, lines);
  const decided = decideClose({ lines, drawerOpen: closing.drawerOpen, unfinished, answered });
  if (!decided.ok) return decided;
  const buyerNames = new Map(tillView(book, row).rows.map(({ buyerNo, name }) => [buyerNo, name]));
  const names = { sellerNames: namesOfSellers(book, row.id), buyerNames };
  const paperContext = paperGround(book, row, dayIn(book, at));
  const report = closingReport({ context: paperContext, closing, lines, unfinished, ...names, closedBy: worker });
  postRest(context, { saleId: row.id, day: paperContext.issuedOn, facts: closing.facts });
  addRow(context, closingTable, { saleId: row.id, kind: 'closed', model: canonical(report), worker, at });
  return accept(null);
}

/** Says how the lots come up. Places given before fall away, save by hand, which keeps the order as it stood. */
export const saleOrder = defineSaleCommand({
  name: 'sale.order',
  summary:
    'Sets the running order: by lot number, by seller number, by kind of goods, or by hand from where it stands.',
  logLabel: 'Running order set',
  stations: ['block', 'office'],
  input: z.strictObject({ saleId: rowId, order: z.enum(RUNNING_ORDERS) }),
  run({ sale, ...context }, { saleId, order }) {
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: no lot comes up any more.');
    const open = openLots(context.book, sale);
    for (const [at, { lotId }] of open.entries()) savePlace(context, lotId, order === 'hand' ? at + 1 : null);
    updateRow(context, saleTable, saleId, { runningOrder: order });
    return accept({ saleId, order, lots: open.length });
  },
});

export const saleHandover = defineSaleCommand({
  name: 'sale.handover',
  summary: 'Says whether lots may be handed over before they are paid.',
  logLabel: 'Handing over set',
  stations: ['office'],
  untilClosed: true,
  input: z.strictObject({ saleId: rowId, unpaid: flag }),
  run({ book, sale, line }, { saleId, unpaid }) {
    if (sale.handOverUnpaid === unpaid) return refuse('already', 'The sale says so already.', 'unpaid');
    updateRow({ book, line }, saleTable, saleId, { handOverUnpaid: unpaid });
    return accept({ unpaid });
  },
});

import * as z from 'zod';
import { postPurchases } from '#db/account/post.ts';
import { defineSaleCommand } from '#db/book/command.ts';
import { buyerByNumber } from '#db/book/find.ts';
import { dateOrNull, partyNumber, rowId } from '#db/book/inputs.ts';
import { canonical, logHead } from '#db/book/log.ts';
import { addRow } from '#db/book/rows.ts';
import { buyerFile } from '#db/buyer/files.ts';
import { dayIn } from '#db/sale/queries.ts';
import { invoice } from '#db/schema/index.ts';
import { decideInvoice } from '#lib/invoice/invoice.ts';
import { invoicePaper } from '#lib/invoice/paper.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { newestInvoice, nextInvoiceNumber, saysWhatIs } from './queries.ts';

/** Issues a buyer's invoice: numbered without gaps within the sale, frozen; one that is no longer true is corrected by a further one. */
export const invoiceIssue = defineSaleCommand({
  name: 'invoice.issue',
  summary: 'Issues the invoice of one buyer number, or the correcting invoice where the issued one is no longer true.',
  logLabel: 'Invoice issued',
  stations: ['till', 'office'],
  input: z.strictObject({
    saleId: rowId,
    buyerNo: partyNumber,
    /** Another day than that of the entry where the association is. */
    issuedOn: dateOrNull.nullable().default(null),
  }),
  run({ sale, ...context }, { saleId, buyerNo, issuedOn }) {
    const { book } = context;
    const buyer = buyerByNumber(book, saleId, buyerNo);
    const file = buyerFile(book, saleId, buyerNo);
    if (!buyer || !file) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    const before = newestInvoice(book, buyer.id);
    const issued = before && { number: before.number, stillTrue: saysWhatIs(before.invoice, file) };
    const decided = decideInvoice({ stage: sale.stage, buyerNo, lots: file.lots.length, issued: issued ?? null });
    if (!decided.ok) return decided;
    const number = nextInvoiceNumber(book, saleId);
    const stamp = { number, issuedOn: issuedOn ?? dayIn(book, context.at), head: logHead(book) };
    // Frozen as RFC 8785 text, so that the same invoice is the same bytes on every machine.
    const paper = invoicePaper(file, stamp, before?.invoice ?? null);
    const model = canonical(paper);
    const place = { saleId, buyerId: buyer.id, number, correctsId: before?.invoiceId ?? null };
    const invoiceId = addRow(context, invoice, { ...place, model, issuedAt: context.at });
    const entry = { saleId, buyerId: buyer.id, day: stamp.issuedOn, memo: `Invoice ${number} of buyer ${buyerNo}` };
    postPurchases(context, entry, { buyerNo, ...paper.totals });
    return accept({ invoiceId, number, corrects: before?.number ?? null });
  },
});

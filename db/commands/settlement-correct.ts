import { z } from 'zod';
import { partnerAccounts } from '#lib/payout/accounts.ts';
import { correctionSheet } from '#lib/payout/correction.ts';
import { decideCorrection } from '#lib/payout/decide-correction.ts';
import { accept, refuse } from '#lib/result.ts';
import { settlementSheet } from '#lib/sheet/settlement-sheet.ts';
import { defineCommand } from '../command.ts';
import { dateOrNull, partyNumber, rowId, someText } from '../inputs.ts';
import { logHead } from '../log.ts';
import { saleById, sellerByNumber } from '../queries/find.ts';
import { dayIn } from '../queries/local-days.ts';
import { payoutSeller, sharesOf } from '../queries/payout-scene.ts';
import { nextSheetNumber } from '../queries/sheets.ts';
import { saveSettlement } from '../save/settlement.ts';

const input = z.strictObject({
  saleId: rowId,
  sellerNo: partyNumber,
  reason: someText,
  /** Another day than that of the entry where the association is. */
  issuedOn: dateOrNull.nullable().default(null),
});

/** Issues a further sheet to a seller number whose sheet is no longer right; the older one stays as it was. */
export const settlementCorrect = defineCommand({
  name: 'settlement.correct',
  summary: 'Issues a correction sheet: what was said before, what is right now, and what is still to pay or get back.',
  logLabel: 'Correcting sheet issued',
  stations: ['payout', 'office'],
  input,
  run(context, { saleId, sellerNo, reason, issuedOn }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const row = sellerByNumber(context.book, saleId, sellerNo);
    const found = payoutSeller(context.book, sale, sellerNo);
    if (!row || !found) return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
    const decided = decideCorrection({ ...found, stage: sale.stage });
    if (!decided.ok) return decided;
    const { issued, file } = found;
    if (!issued) throw new TypeError('a sheet that is corrected was issued');
    const number = nextSheetNumber(context.book, saleId);
    const stamp = { number, issuedOn: issuedOn ?? dayIn(context.book, context.at), head: logHead(context.book) };
    const now = settlementSheet(file, stamp);
    const accounts = partnerAccounts(sharesOf(now), found.payments);
    const ground = { association: file.association, saleId, sale: file.sale, ...stamp };
    const sheet = correctionSheet({ ground, before: issued.sheet, now, accounts, reason });
    const place = { saleId, sellerId: row.id, number, correctsId: issued.settlementId };
    return accept({ settlementId: saveSettlement(context, place, sheet), number, corrects: issued.number });
  },
});

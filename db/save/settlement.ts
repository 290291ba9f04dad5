/** A settlement sheet as it was issued, and the checks that pay it. */
import type { Cents } from '#lib/money.ts';
import type { CorrectionSheet } from '#lib/payout/correction.ts';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import type { CommandContext } from '../command.ts';
import { canonical } from '../log.ts';
import { insertRow } from '../rows.ts';
import { sellerCheck, settlement } from '../schema/index.ts';
import { savePayment } from './buyer-and-payment.ts';

export interface IssuedPlace {
  readonly saleId: number;
  readonly sellerId: number;
  readonly number: number;
  /** The row of the sheet that this one corrects, or null. */
  readonly correctsId: number | null;
}

/** Freezes a sheet as RFC 8785 text, so that the same sheet is the same bytes on every machine; gives the row's id. */
export function saveSettlement(
  context: CommandContext,
  place: IssuedPlace,
  sheet: SettlementSheet | CorrectionSheet,
): number {
  const row = { ...place, model: canonical(sheet), issuedAt: context.at, line: context.line };
  return insertRow(context.book, settlement, row);
}

export interface CheckFields {
  readonly saleId: number;
  readonly number: number;
  readonly sellerId: number;
  readonly personId: number;
  readonly settlementId: number;
  readonly amountCents: Cents;
  readonly replacesId: number | null;
}

/** Writes a check: the payment that it is, and its number. Gives the row's id. */
export function saveCheck(context: CommandContext, check: CheckFields): number {
  const { saleId, number, sellerId, personId, settlementId, amountCents, replacesId } = check;
  const party = { saleId, buyerId: null, sellerId, personId };
  const money = { direction: 'out', method: 'check', amountCents, reference: `Check ${number}` } as const;
  const paymentId = savePayment(context, { ...party, ...money, paidAt: context.at });
  return insertRow(context.book, sellerCheck, {
    saleId,
    number,
    paymentId,
    settlementId,
    replacesId,
    line: context.line,
  });
}

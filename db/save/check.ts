import type { Cents } from '#lib/money.ts';
import type { Scene } from '../command.ts';
import { insertRow } from '../rows.ts';
import { sellerCheck } from '../schema/index.ts';
import { savePayment } from './seller.ts';

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
export function saveCheck(scene: Scene, check: CheckFields): number {
  const { saleId, number, sellerId, personId, settlementId, amountCents, replacesId } = check;
  const party = { saleId, buyerId: null, sellerId, personId };
  const money = { direction: 'out', method: 'check', amountCents, reference: `Check ${number}` } as const;
  const paymentId = savePayment(scene, { ...party, ...money, paidAt: scene.at });
  return insertRow(scene.book, sellerCheck, {
    ...{ saleId, number, paymentId, settlementId, replacesId, line: scene.line },
  });
}

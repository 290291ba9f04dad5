/** A seller number with those who share it, and what is charged to it. */
import type { Cents } from '#lib/money.ts';
import type { Scene } from '../command.ts';
import { insertRow } from '../rows.ts';
import { charge, partner, seller } from '../schema/index.ts';

export interface PartnerFields {
  readonly personId: number;
  readonly parts: number;
}

interface SellerFields {
  readonly saleId: number;
  readonly sellerNo: number;
  readonly broughtBy: string;
  readonly arrivedAt: string | null;
}

export function saveSeller(scene: Scene, fields: SellerFields, partners: readonly PartnerFields[]): number {
  const sellerId = insertRow(scene.book, seller, { ...fields, line: scene.line });
  for (const [index, one] of partners.entries()) {
    insertRow(scene.book, partner, { sellerId, position: index + 1, ...one, line: scene.line });
  }
  return sellerId;
}

export interface ChargeFields {
  readonly sellerId: number;
  readonly kind: 'dues' | 'advance' | 'adjustment';
  readonly amountCents: Cents;
  readonly how: 'deducted' | 'cash';
  readonly note: string;
}

export function saveCharge(scene: Scene, fields: ChargeFields): number {
  return insertRow(scene.book, charge, { ...fields, line: scene.line });
}

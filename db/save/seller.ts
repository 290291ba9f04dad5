import type { BuyerFacts } from '#lib/buyer/fields.ts';
import type { Cents } from '#lib/money.ts';
import type { Scene } from '../command.ts';
import { insertRow } from '../rows.ts';
import { buyer, charge, partner, payment, seller } from '../schema/index.ts';

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

export interface BuyerFields extends BuyerFacts {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly personId: number;
  readonly cleared: boolean;
  readonly clearedBy: string;
}

export function saveBuyer(scene: Scene, fields: BuyerFields): number {
  return insertRow(scene.book, buyer, { ...fields, line: scene.line });
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

export interface PaymentFields {
  readonly saleId: number;
  readonly direction: 'in' | 'out';
  readonly buyerId: number | null;
  readonly sellerId: number | null;
  readonly personId: number | null;
  readonly method: 'cash' | 'check' | 'card' | 'other';
  readonly amountCents: Cents;
  readonly reference: string;
  readonly paidAt: string;
}

export function savePayment(scene: Scene, fields: PaymentFields): number {
  return insertRow(scene.book, payment, { ...fields, line: scene.line });
}

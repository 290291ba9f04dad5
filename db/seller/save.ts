/** A seller number with those who share it, and what is charged to it. */

import type { CommandContext } from '#db/book/command.ts';
import { insertRow } from '#db/book/rows.ts';
import { charge, partner, seller } from '#db/schema/index.ts';
import type { Cents } from '#lib/money/money.ts';

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

export function saveSeller(context: CommandContext, fields: SellerFields, partners: readonly PartnerFields[]): number {
  const sellerId = insertRow(context.book, seller, { ...fields, line: context.line });
  for (const [index, one] of partners.entries()) {
    insertRow(context.book, partner, { sellerId, position: index + 1, ...one, line: context.line });
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

export function saveCharge(context: CommandContext, fields: ChargeFields): number {
  return insertRow(context.book, charge, { ...fields, line: context.line });
}

import type { Cents } from '#lib/money.ts';
import type { Scene } from '../command.ts';
import { insertRow } from '../rows.ts';
import { bid } from '../schema/index.ts';

export interface BidFields {
  readonly lotId: number;
  readonly buyerId: number;
  readonly kind: 'written' | 'left' | 'under';
  readonly priceCents: Cents;
  readonly receivedAt: string;
  /** The bid that this row takes back. */
  readonly retractsId?: number;
}

export function saveBid(scene: Scene, fields: BidFields): number {
  return insertRow(scene.book, bid, { ...fields, line: scene.line });
}

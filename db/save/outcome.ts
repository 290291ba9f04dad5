/** What happened when a lot was called, and the bids that were written, left or noted for it. */
import type { Cents } from '#lib/money.ts';
import type { CommandContext } from '../command.ts';
import { insertRow } from '../rows.ts';
import { bid, outcome } from '../schema/index.ts';

export interface OutcomeFields {
  readonly kind: 'sold' | 'passed' | 'withdrawn' | 'reopened';
  readonly priceCents: Cents | null;
  readonly buyerId: number | null;
  readonly remarks: readonly string[];
  readonly awarded: boolean;
  /** The outcome this one replaces, with the reason; neither for a first outcome. */
  readonly replacesId: number | null;
  readonly reason: string;
  /** When the hammer fell; the time of the entry where nothing else is said. */
  readonly at?: string;
}

export function saveOutcome(context: CommandContext, lotId: number, fields: OutcomeFields): number {
  const row = { lotId, at: context.at, ...fields, remarks: [...fields.remarks], line: context.line };
  return insertRow(context.book, outcome, row);
}

/** What a first outcome has where a clerk said nothing more. */
export const PLAIN = { remarks: [], awarded: false, replacesId: null, reason: '' } as const;

export interface BidFields {
  readonly lotId: number;
  readonly buyerId: number;
  readonly kind: 'written' | 'left' | 'under';
  readonly priceCents: Cents;
  readonly receivedAt: string;
  /** The bid that this row takes back. */
  readonly retractsId?: number;
}

export function saveBid(context: CommandContext, fields: BidFields): number {
  return insertRow(context.book, bid, { ...fields, line: context.line });
}

/** What the balance by which a sale is closed is made from: the facts, and what was issued and counted. */
import type { DrawerEntry, DrawerMove } from '#lib/drawer/reckon.ts';
import type { SaleFacts } from '#lib/facts.ts';
import type { Cents } from '#lib/money.ts';
import type { SheetTotals } from '#lib/sheet/model.ts';

export interface NotedEntry extends DrawerEntry {
  readonly note: string;
}

export interface ClosingFacts {
  readonly facts: SaleFacts;
  /** The newest sheet of each seller number that has one. */
  readonly sheets: ReadonlyMap<number, { readonly number: number; readonly totals: SheetTotals }>;
  /** The newest invoice of each buyer who was given one. */
  readonly invoices: ReadonlyMap<number, { readonly number: number; readonly totalCents: Cents }>;
  /** The drawer's entries that stand, the oldest first. */
  readonly drawer: readonly NotedEntry[];
  readonly moves: readonly DrawerMove[];
}

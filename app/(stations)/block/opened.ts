import type { Entry } from '#app/ui/outbox.ts';
import type { BlockLot } from '#db/queries/block-view.ts';
import type { LastRow } from './model.ts';

/** A refused entry that says what a lot brought. */
export type PutRightEntry = Entry<'outcome.record' | 'outcome.correct'>;

/** The box that stands in the place of price and buyer, with what it is about. */
export type Opened =
  | { readonly kind: 'right'; readonly row: LastRow; readonly cameBack?: PutRightEntry }
  | { readonly kind: 'number'; readonly scanned: string }
  | { readonly kind: 'choice'; readonly cameBack?: Entry<'outcome.choice'> }
  | { readonly kind: 'divide'; readonly lot: BlockLot }
  | { readonly kind: 'under' };

/** What the keys put into the boxes of a lot. */

import type { InputOf } from '#db/commands/index.ts';
import type { BlockLot } from '#db/queries/block-view.ts';
import type { Question } from '#lib/decide-outcome.ts';

export interface Draft {
  readonly price: string;
  readonly buyer: string;
  readonly answered: readonly Question[];
  /** The refused entry that this text came back from. */
  readonly entryId: number | null;
  /** The time on the paper, as typed; null while lots are entered as they are called. */
  readonly time: string | null;
  /** True for text that was typed while no lot was up: whoever typed it says whether it is for the one that came. */
  readonly loose: boolean;
}

export const EMPTY: Draft = { price: '', buyer: '', answered: [], entryId: null, time: null, loose: false };

export type Kind = InputOf<'outcome.record'>['kind'];

export interface Typing {
  readonly draft: Draft;
  /** Why the key that was pressed last did nothing, in a sentence; empty where it did what it is for. */
  readonly said: string;
}

/** How much is typed for a lot. */
export const lengthOf = ({ price, buyer }: Draft): number => (price + buyer).length;

/**
 * The boxes after a change. A key that could not act has put nothing into them: what comes behind it was meant for
 * something else and is not taken either, until the boxes are empty or Escape goes back to them. Taking out is heard.
 */
export function typedOn({ draft, said }: Typing, change: Partial<Draft>, lot: BlockLot | undefined): Typing {
  const typed = { ...draft, answered: [], ...change };
  const length = lengthOf(typed);
  const stays = said !== '' && lengthOf(draft) > 0;
  if (stays && length >= lengthOf(draft)) return { draft, said };
  // What is typed while no lot is up is loose until somebody says whose it is.
  const next = { ...typed, loose: (draft.loose || !lot) && length > 0 };
  return { draft: next, said: stays && length > 0 ? said : '' };
}

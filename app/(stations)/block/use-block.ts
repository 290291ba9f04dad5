'use client';

import { useCallback, useEffect, useState } from 'react';
import { EMPTY_OUTBOX, type Entry, enqueue, type OutboxState, takeBack, watchOutbox } from '#app/ui/outbox.ts';
import { useView } from '#app/ui/use-view.ts';
import type { CommandName } from '#db/commands.ts';
import type { BlockLot, BlockView } from '#db/outcome/block-view.ts';
import { type BlockModel, blockModel, type LastRow } from './model.ts';

/** An entry of the Block: the input is that of its command. */
type Submission = { readonly [N in CommandName]: Pick<Entry<N>, 'command' | 'input' | 'label'> }[CommandName];

export interface BlockContext {
  readonly view: BlockView;
  readonly model: BlockModel;
  /** Puts an entry into the outbox and shows its effect at once; takes out the one that came back, in whose place it is. */
  readonly submit: (submission: Submission, rejectedId?: number | null) => void;
  readonly discard: (entryId: number) => void;
  /** Takes note of a lot that the view does not have, so that it can be up before the next view comes. */
  readonly know: (lot: BlockLot) => void;
}

/** The Block's context: the view of the book, what waits in this browser, and the way to say more. */
export function useBlock(first: BlockView): BlockContext {
  const outbox = useOutbox();
  const { view } = useView(first, `/api/views/block?sale=${first.saleId}`, outbox.answered.at(-1)?.line);
  const [known, setKnown] = useState<readonly BlockLot[]>([]);
  const model = blockModel(view, outbox, known);
  const submit = useCallback((submission: Submission, rejectedId?: number | null) => {
    // Before it is taken out: submitted as it was, it has the key that it had.
    enqueue({ ...submission, station: 'block' });
    if (rejectedId) void takeBack(rejectedId);
  }, []);
  return {
    ...{ view, model, submit },
    discard: (entryId) => void takeBack(entryId),
    know: (lot) => setKnown((others) => [lot, ...others]),
  };
}

/** A refused entry that says what a lot brought. */
export type PutRightEntry = Entry<'outcome.record' | 'outcome.correct'>;

/** The box that stands in the place of price and buyer, with what it is about. */
export type Opened =
  | { readonly kind: 'right'; readonly row: LastRow; readonly rejected?: PutRightEntry }
  | { readonly kind: 'number'; readonly scanned: string }
  | { readonly kind: 'choice'; readonly rejected?: Entry<'outcome.choice'> }
  | { readonly kind: 'divide'; readonly lot: BlockLot }
  | { readonly kind: 'under' };

/** What this browser has entered and the book has not yet answered. */
function useOutbox(): OutboxState {
  const [state, setState] = useState(EMPTY_OUTBOX);
  useEffect(() => watchOutbox(setState), []);
  return state;
}

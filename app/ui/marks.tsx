import type { ReactNode } from 'react';
import type { Stage } from '#lib/sale/facts.ts';

/** One shape for each kind of state, so that the word is not carried by color alone; notices.css draws the lines. */
const SHAPES = {
  done: 'M1 6.5 4.5 10 11 2',
  wait: 'M2 1h8L6 6l4 5H2l4-5z',
  stop: 'M4 1h4l3 3v4l-3 3H4L1 8V4z',
  plain: 'M2 6h8',
  open: 'M1.6 6a4.4 4.4 0 1 0 8.8 0 4.4 4.4 0 1 0-8.8 0z',
} as const;

export type Tone = keyof typeof SHAPES;

/** A state as a word with its shape. */
export function Mark({ tone, children }: { readonly tone: Tone; readonly children: ReactNode }) {
  return (
    <span className="mark" data-tone={tone}>
      <svg viewBox="0 0 12 12" width="12" height="12" aria-hidden="true">
        <path d={SHAPES[tone]} />
      </svg>
      {children}
    </span>
  );
}

const STAGES: Readonly<Record<Stage, { readonly tone: Tone; readonly words: string }>> = {
  planned: { tone: 'open', words: 'planned' },
  intake: { tone: 'wait', words: 'goods coming in' },
  selling: { tone: 'wait', words: 'selling' },
  settling: { tone: 'wait', words: 'settling' },
  closed: { tone: 'done', words: 'closed' },
};

/** How far a sale has come, in the same word and shape wherever it is told. */
export function StageMark({ stage }: { readonly stage: Stage }) {
  return <Mark tone={STAGES[stage].tone}>{STAGES[stage].words}</Mark>;
}

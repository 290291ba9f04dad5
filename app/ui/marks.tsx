import type { ReactNode } from 'react';
import type { Stage } from '#lib/sale/facts.ts';

/** One shape for each kind of state, so that the word is not carried by colour alone. */
const SHAPES = {
  done: <path d="M1 6.5 4.5 10 11 2" fill="none" stroke="currentColor" strokeWidth="2.4" />,
  wait: <path d="M2 1h8L6 6l4 5H2l4-5z" fill="none" stroke="currentColor" strokeWidth="1.8" />,
  stop: <path d="M4 1h4l3 3v4l-3 3H4L1 8V4z" fill="currentColor" />,
  plain: <path d="M2 6h8" fill="none" stroke="currentColor" strokeWidth="2.4" />,
  open: <circle cx="6" cy="6" r="4.4" fill="none" stroke="currentColor" strokeWidth="2" />,
} as const;

export type Tone = keyof typeof SHAPES;

/** A state as a word with its shape. */
export function Mark({ tone, children }: { readonly tone: Tone; readonly children: ReactNode }) {
  return (
    <span className="mark" data-tone={tone}>
      <svg viewBox="0 0 12 12" width="12" height="12" aria-hidden="true">
        {SHAPES[tone]}
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

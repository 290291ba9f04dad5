import type { Stage } from '#lib/facts.ts';
import { Mark, type Tone } from './mark.tsx';

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

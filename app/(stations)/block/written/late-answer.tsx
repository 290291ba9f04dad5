import { Notice } from '#app/ui/notice.tsx';
import type { InputOf } from '#db/commands/index.ts';

/** What is said of a lot that waits for its seller. */
export type Decision = Omit<InputOf<'outcome.record'>, 'saleId'>;

interface LateAnswerProps {
  /** The question, as the book asks it. */
  readonly message: string;
  readonly late: Decision;
  readonly busy: boolean;
  readonly decide: (decision: Decision) => void;
  readonly leave: () => void;
}

/** A seller who accepts after the time that was set: the association lets it count, or the lot is kept. */
export function LateAnswer({ message, late, busy, decide, leave }: LateAnswerProps) {
  const { lotNo, answered = [] } = late;
  return (
    <Notice kind="wait" title={`Lot ${lotNo}: ${message}`}>
      <div className="acts">
        <button
          type="button"
          disabled={busy}
          onClick={() => decide({ ...late, answered: [...answered, 'answer_late'] })}
        >
          The answer counts
        </button>
        <button type="button" disabled={busy} onClick={() => decide({ lotNo, kind: 'passed' })}>
          The seller keeps lot {lotNo}
        </button>
        <button type="button" onClick={leave}>
          Leave it for now
        </button>
      </div>
    </Notice>
  );
}

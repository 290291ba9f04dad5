import type { Refusal } from '#lib/result.ts';

interface QuestionProps {
  readonly message: string;
  /** True where a no-sale is an answer as well. */
  readonly passes?: boolean;
  readonly yes?: string;
  readonly no?: string;
}

const YES = 'yes, save it.';
const NO = 'no, go back to what was typed.';

/** Asked once, in place: Enter says yes, Escape goes back to what was typed. */
export function Question({ message, passes = false, yes = YES, no = NO }: QuestionProps) {
  return (
    <div className="notice" data-kind="wait" role="alert">
      <p>
        <strong>{message}</strong>
      </p>
      <p>
        <kbd>Enter</kbd> {yes} <kbd>Esc</kbd> {no}
        {passes && (
          <>
            {' '}
            <kbd>*</kbd> no-sale.
          </>
        )}
      </p>
    </div>
  );
}

interface RefusedProps {
  readonly refusal: Refusal | undefined;
  readonly question: string | undefined;
  /** The fields that are drawn and say themselves what is wrong with them. */
  readonly drawn: readonly string[];
}

/** What a refusal asks, or says of something else than the fields that are drawn. */
export function Refused({ refusal, question, drawn }: RefusedProps) {
  if (!refusal || (!question && drawn.includes(refusal.field ?? ''))) return null;
  if (question) return <Question message={refusal.message} passes={question === 'below_minimum'} />;
  return (
    <p className="field-error" role="alert">
      {refusal.message}
    </p>
  );
}

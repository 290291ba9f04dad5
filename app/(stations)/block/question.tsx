import { type Question as Asked, QUESTIONS } from '#lib/decide-outcome.ts';
import type { Refusal } from '#lib/result.ts';

/** What a refusal asks; undefined where it says no. */
export function questionIn(refusal: Refusal | undefined): Asked | undefined {
  return QUESTIONS.find((one) => refusal?.code === 'needs_answer' && one === refusal.field);
}

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
  readonly drawn: readonly (string | undefined)[];
}

/** What a refusal asks, or says of something else than the fields that are drawn. */
export function Refused({ refusal, question, drawn }: RefusedProps) {
  if (!refusal) return null;
  if (question) return <Question message={refusal.message} passes={question === 'below_minimum'} />;
  return drawn.includes(refusal.field) ? null : (
    <p className="field-error" role="alert">
      {refusal.message}
    </p>
  );
}

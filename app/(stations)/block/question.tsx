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

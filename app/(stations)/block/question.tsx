interface QuestionProps {
  readonly message: string;
  /** True where a no-sale is an answer as well. */
  readonly passes: boolean;
}

/** Asked once, in place: Enter says yes, Escape goes back to what was typed. */
export function Question({ message, passes }: QuestionProps) {
  return (
    <div className="notice" data-kind="wait" role="alert">
      <p>
        <strong>{message}</strong>
      </p>
      <p>
        <kbd>Enter</kbd> yes, save it. <kbd>Esc</kbd> no, go back to what was typed.
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

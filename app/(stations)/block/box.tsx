import type { FormEvent, ReactNode } from 'react';

interface BoxProps {
  readonly label: string;
  readonly enter: () => void;
  readonly close: () => void;
  readonly children: ReactNode;
}

/** A small form in the place of price and buyer: Enter goes on, Escape goes back to the lot that is up. */
export function Box({ label, enter, close, children }: BoxProps) {
  const submit = (event: FormEvent) => {
    event.preventDefault();
    enter();
  };
  return (
    <form
      className="call"
      noValidate
      aria-label={label}
      onSubmit={submit}
      onKeyDown={({ key }) => key === 'Escape' && close()}
    >
      <h2>{label}</h2>
      <div className="call-fields">{children}</div>
      <div className="acts">
        <button type="submit" className="act">
          Save
        </button>
        <button type="button" onClick={close}>
          <kbd>Esc</kbd> Leave it
        </button>
      </div>
    </form>
  );
}

/** On to the next field of the form that holds the cursor; false at the last one. */
export function goOn(): boolean {
  const at = document.activeElement;
  const fields = [...(at?.closest('form')?.querySelectorAll('input') ?? [])];
  const next = at instanceof HTMLInputElement ? fields[fields.indexOf(at) + 1] : undefined;
  next?.focus();
  next?.select();
  return next !== undefined;
}

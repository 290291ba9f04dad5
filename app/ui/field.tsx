import { type ComponentProps, useId } from 'react';
import { describedBy, FieldFrame, type FieldProps } from './text-field.tsx';

export { describedBy, FieldFrame, TextField } from './text-field.tsx';

/** Several lines of text. */
export function TextArea({ label, hint, error, wide = false, ...area }: FieldProps & ComponentProps<'textarea'>) {
  const id = useId();
  return (
    <FieldFrame {...{ label, hint, error, wide, id }}>
      <textarea
        id={id}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, { hint, error })}
        {...area}
      />
    </FieldFrame>
  );
}

/** A choice of a few. */
export function ChoiceField({
  label,
  hint,
  error,
  wide = false,
  children,
  ...select
}: FieldProps & ComponentProps<'select'>) {
  const id = useId();
  return (
    <FieldFrame {...{ label, hint, error, wide, id }}>
      <select
        id={id}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, { hint, error })}
        {...select}
      >
        {children}
      </select>
    </FieldFrame>
  );
}

/** A yes or no. */
export function CheckField({ label, ...input }: { readonly label: string } & ComponentProps<'input'>) {
  const id = useId();
  return (
    <div className="check">
      <input id={id} type="checkbox" {...input} />
      <label htmlFor={id}>{label}</label>
    </div>
  );
}

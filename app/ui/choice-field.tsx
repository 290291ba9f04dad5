// Apart from the other kinds of fields, so that the Block's browser loads no more than it draws.
import { type ComponentProps, useId } from 'react';
import { describedBy, FieldFrame, type FieldProps } from './text-field.tsx';

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

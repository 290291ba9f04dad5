import { type ComponentProps, useId } from 'react';
import { Unbroken } from './text.tsx';
import { describedBy, type FieldProps, FieldFrame as PlainFrame, TextField as PlainTextField } from './text-field.tsx';

export { describedBy } from './text-field.tsx';

/** The Block has no hints; everywhere else their days, codes and percentages hold together. */
const whole = (hint: FieldProps['hint']) => (typeof hint === 'string' ? <Unbroken>{hint}</Unbroken> : hint);

export function FieldFrame({ hint, ...rest }: ComponentProps<typeof PlainFrame>) {
  return <PlainFrame hint={whole(hint)} {...rest} />;
}

export function TextField({ hint, ...rest }: ComponentProps<typeof PlainTextField>) {
  return <PlainTextField hint={whole(hint)} {...rest} />;
}

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

// Apart from the other kinds of fields, so that the Block's browser loads no more than it draws.

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
    <PlainFrame {...{ label, hint, error, wide, id }}>
      <select
        id={id}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, { hint, error })}
        {...select}
      >
        {children}
      </select>
    </PlainFrame>
  );
}

import { type ComponentProps, useId } from 'react';
import { Unbroken } from './text.tsx';
import { type FieldProps, FieldFrame as PlainFrame, TextField as PlainTextField, tiedTo } from './text-field.tsx';

export { ChoiceField } from './choice-field.tsx';
export { tiedTo } from './text-field.tsx';

/** The Block has no hints; everywhere else their days, codes and percentages hold together. */
const whole = (hint: FieldProps['hint']) => (typeof hint === 'string' ? <Unbroken>{hint}</Unbroken> : hint);

export function FieldFrame({ hint, ...rest }: ComponentProps<typeof PlainFrame>) {
  return <PlainFrame hint={whole(hint)} {...rest} />;
}

export function TextField({ hint, ...rest }: ComponentProps<typeof PlainTextField>) {
  return <PlainTextField hint={whole(hint)} {...rest} />;
}

interface TextAreaProps extends FieldProps, ComponentProps<'textarea'> {
  readonly onText: (text: string) => void;
}

/** Several lines of text. */
export function TextArea({ label, hint, error, wide = false, onText, ...area }: TextAreaProps) {
  const id = useId();
  return (
    <FieldFrame {...{ label, hint, error, wide, id }}>
      <textarea
        {...tiedTo(id, { hint, error })}
        autoComplete="off"
        spellCheck={false}
        onChange={({ target }) => onText(target.value)}
        {...area}
      />
    </FieldFrame>
  );
}

interface CheckFieldProps extends ComponentProps<'input'> {
  readonly label: string;
  readonly onTick?: (checked: boolean) => void;
}

/** A yes or no. */
export function CheckField({ label, onTick, ...input }: CheckFieldProps) {
  const id = useId();
  return (
    <div className="check">
      <input id={id} type="checkbox" onChange={onTick && (({ target }) => onTick(target.checked))} {...input} />
      <label htmlFor={id}>{label}</label>
    </div>
  );
}

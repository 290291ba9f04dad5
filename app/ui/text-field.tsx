// Apart from the other kinds of fields, so that the Block's browser loads no more than it draws.
import { type ComponentProps, type ReactNode, useId } from 'react';
import type { CommandName, InputOf } from '#db/commands.ts';

export interface FieldProps {
  readonly label: string;
  readonly hint?: ReactNode;
  /** The sentence of a refusal about this field. */
  readonly error?: string | undefined;
  readonly wide?: boolean;
}

interface FrameProps extends FieldProps {
  readonly id: string;
  /** The class of a control that is more than one element. */
  readonly kind?: string;
  readonly children: ReactNode;
}

/** A label, a hint, what is wrong, and the control: tied together for a screen reader. */
export function FieldFrame({ label, hint, error, wide, id, kind = '', children }: FrameProps) {
  return (
    <div className={['field', wide && 'wide', kind].filter(Boolean).join(' ')} data-wrong={error ? '' : undefined}>
      <label htmlFor={id}>{label}</label>
      {hint && (
        <span className="field-hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      {error && (
        <span className="field-error" id={`${id}-error`}>
          {error}
        </span>
      )}
      {children}
    </div>
  );
}

/** What ties a control to the frame of the same id. */
export function tiedTo(id: string, { hint, error }: Pick<FieldProps, 'hint' | 'error'>) {
  const parts = [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean);
  const describedBy = parts.length > 0 ? parts.join(' ') : undefined;
  return { id, 'aria-invalid': error ? true : undefined, 'aria-describedby': describedBy };
}

interface TextFieldProps extends FieldProps, ComponentProps<'input'> {
  /** Gets the whole text after each change. */
  readonly onText?: (text: string) => void;
}

/** A line of text or a figure. Figures are text too: `inputMode` brings the keypad, the book reads what was typed. */
export function TextField({ label, hint, error, wide = false, onText, ...input }: TextFieldProps) {
  const id = useId();
  return (
    <FieldFrame {...{ label, hint, error, wide, id }}>
      <input
        {...tiedTo(id, { hint, error })}
        autoComplete="off"
        onChange={onText && (({ target }) => onText(target.value))}
        {...input}
      />
    </FieldFrame>
  );
}

declare const NOT_A_NUMBER: unique symbol;

/** A text that was typed where a number belongs. It is sent as it is, because the book says what is wrong with it. */
export type NotANumber = string & { readonly [NOT_A_NUMBER]: true };

type Typed<T> = T extends number ? T | NotANumber : T extends object ? { readonly [K in keyof T]: Typed<T[K]> } : T;

/** What a form sends with a command: its input, with what was typed where a number belongs. */
export type TypedInput<N extends CommandName> = Typed<InputOf<N>>;

/** A number as it was typed, or the text itself where it is none: the book says what is wrong with it. */
export function wholeNumber(typed: string): number | NotANumber {
  return /^\d{1,9}$/.test(typed.trim()) ? Number.parseInt(typed, 10) : (typed as NotANumber);
}

// Apart from the fields whose hints hold together, so that the Block's browser loads no more than it draws.
import { type ComponentProps, useId } from 'react';
import { FieldFrame, type FieldProps, tiedTo } from './text-field.tsx';

interface ChoiceFieldProps extends FieldProps, ComponentProps<'select'> {
  readonly onPick?: (value: string) => void;
}

/** A choice of a few. */
export function ChoiceField({ label, hint, error, wide = false, onPick, children, ...select }: ChoiceFieldProps) {
  const id = useId();
  return (
    <FieldFrame {...{ label, hint, error, wide, id }}>
      <select {...tiedTo(id, { hint, error })} onChange={onPick && (({ target }) => onPick(target.value))} {...select}>
        {children}
      </select>
    </FieldFrame>
  );
}

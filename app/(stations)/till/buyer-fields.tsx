import { CheckField, TextField } from '#app/ui/field.tsx';
import { BUYER_FIELDS, type BuyerAsTyped } from '#lib/buyer/fields.ts';
import { fieldNames, hintOf } from '#lib/field/fields.ts';

/** In the order of the form. The number of an exemption is asked where there is one. */
const TEXTS = fieldNames(BUYER_FIELDS).filter((name) => name !== 'taxExempt' && name !== 'exemptNo');

interface BuyerFieldsProps {
  readonly fields: BuyerAsTyped;
  readonly errorOf: (field: string) => string | undefined;
  readonly onChange: (over: Partial<BuyerAsTyped>) => void;
}

/** Licence, limit and exemption: the same when a buyer is registered and later. */
export function BuyerFields({ fields, errorOf, onChange }: BuyerFieldsProps) {
  return (
    <>
      {TEXTS.map((name, at) => (
        <TextField
          key={name}
          label={BUYER_FIELDS[name].label}
          hint={hintOf(BUYER_FIELDS[name])}
          error={errorOf(name)}
          autoFocus={at === 0}
          value={fields[name]}
          onChange={(event) => onChange({ [name]: event.target.value })}
        />
      ))}
      <CheckField
        label={BUYER_FIELDS.taxExempt.label}
        checked={fields.taxExempt}
        onChange={(event) => onChange({ taxExempt: event.target.checked })}
      />
      {fields.taxExempt && (
        <TextField
          label={BUYER_FIELDS.exemptNo.label}
          error={errorOf('exemptNo')}
          value={fields.exemptNo}
          onChange={(event) => onChange({ exemptNo: event.target.value })}
        />
      )}
    </>
  );
}

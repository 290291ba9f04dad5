import { CheckField, TextField } from '#app/ui/field.tsx';

/** What a buyer shows at the till, as it is typed. */
export interface BuyerDetails {
  readonly licenceNo: string;
  readonly licenceRegion: string;
  readonly licenceExpires: string;
  readonly limit: string;
  readonly taxExempt: boolean;
  readonly exemptNo: string;
}

const TEXTS = [
  { field: 'licenceNo', label: 'Fur buyer’s licence' },
  { field: 'licenceRegion', label: 'Licence of', hint: 'Country and State, such as US-WY' },
  { field: 'licenceExpires', label: 'Licence expires', hint: 'Year-month-day, such as 2026-12-31' },
  { field: 'limit', label: 'Limit', hint: 'Warns beyond it; empty for none' },
] as const;

interface BuyerFieldsProps {
  readonly fields: BuyerDetails;
  readonly errorOf: (field: string) => string | undefined;
  readonly onChange: (over: Partial<BuyerDetails>) => void;
}

/** Licence, limit and exemption: the same when a buyer is registered and later. */
export function BuyerFields({ fields, errorOf, onChange }: BuyerFieldsProps) {
  return (
    <>
      {TEXTS.map(({ field, label, ...rest }, at) => (
        <TextField
          key={field}
          label={label}
          hint={'hint' in rest ? rest.hint : undefined}
          error={errorOf(field)}
          autoFocus={at === 0}
          value={fields[field]}
          onChange={(event) => onChange({ [field]: event.target.value })}
        />
      ))}
      <CheckField
        label="Pays no sales tax"
        checked={fields.taxExempt}
        onChange={(event) => onChange({ taxExempt: event.target.checked })}
      />
      {fields.taxExempt && (
        <TextField
          label="Number of the exemption"
          error={errorOf('exemptNo')}
          value={fields.exemptNo}
          onChange={(event) => onChange({ exemptNo: event.target.value })}
        />
      )}
    </>
  );
}

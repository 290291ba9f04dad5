'use client';

import { type FormEvent, useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface BuyerFormProps {
  readonly saleId: number;
  readonly region: string;
  readonly person: { readonly personId: number; readonly name: string };
  readonly onGiven: (buyerNo: number) => void;
  readonly onLeave: () => void;
}

const TEXTS = [
  { field: 'licenceNo', label: 'Fur buyer’s licence' },
  { field: 'licenceRegion', label: 'Licence of', hint: 'Country and State, such as US-WY' },
  { field: 'licenceExpires', label: 'Licence expires', hint: 'Year-month-day, such as 2026-12-31' },
  { field: 'limit', label: 'Limit', hint: 'Warns beyond it; empty for none' },
] as const;

/** What a buyer shows at the till; the book gives the next free number. */
export function BuyerForm({ saleId, region, person, onGiven, onLeave }: BuyerFormProps) {
  const [fields, setFields] = useState({
    ...{ licenceNo: '', licenceRegion: region, licenceExpires: '', limit: '', exemptNo: '' },
    ...{ taxExempt: false, cleared: false },
  });
  const { give, busy, refusal, errorOf } = useGive('till');
  const register = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const input = { saleId, personId: person.personId, ...fields };
    const reply = await give({ command: 'buyer.register', input, label: `Buyer ${person.name}` });
    if (reply.ok) onGiven((reply.value as { buyerNo: number }).buyerNo);
  };
  const shown = [...TEXTS.map(({ field }) => field), 'exemptNo'];
  const elsewhere = refusal && !shown.some((field) => errorOf(field) !== undefined);
  return (
    <form onSubmit={(event) => void register(event)} aria-labelledby="new-buyer">
      <h3 id="new-buyer">{person.name}</h3>
      {elsewhere && <Notice kind="stop" title={refusal.message} />}
      <div className="fields">
        {TEXTS.map(({ field, label, ...rest }, at) => (
          <TextField
            key={field}
            label={label}
            hint={'hint' in rest ? rest.hint : undefined}
            error={errorOf(field)}
            autoFocus={at === 0}
            value={fields[field]}
            onChange={(event) => setFields({ ...fields, [field]: event.target.value })}
          />
        ))}
        <CheckField
          label="Pays no sales tax"
          checked={fields.taxExempt}
          onChange={(event) => setFields({ ...fields, taxExempt: event.target.checked })}
        />
        {fields.taxExempt && (
          <TextField
            label="Number of the exemption"
            error={errorOf('exemptNo')}
            value={fields.exemptNo}
            onChange={(event) => setFields({ ...fields, exemptNo: event.target.value })}
          />
        )}
        <CheckField
          label="Cleared to buy"
          checked={fields.cleared}
          onChange={(event) => setFields({ ...fields, cleared: event.target.checked })}
        />
      </div>
      <div className="acts">
        <button type="submit" className="act">
          Give a buyer number
        </button>
        <button type="button" onClick={onLeave}>
          Back to the box
        </button>
      </div>
    </form>
  );
}

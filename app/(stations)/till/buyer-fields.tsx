'use client';

import { type FormEvent, useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { fieldsOver, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive, useSaid } from '#app/ui/use-give.ts';
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
  const { exemptNo, taxExempt } = BUYER_FIELDS;
  const field = fieldsOver(fields, onChange, errorOf);
  return (
    <>
      {TEXTS.map((name, at) => (
        <TextField
          key={name}
          label={BUYER_FIELDS[name].label}
          hint={hintOf(BUYER_FIELDS[name])}
          autoFocus={at === 0}
          {...field(name)}
        />
      ))}
      <CheckField
        label={taxExempt.label}
        checked={fields.taxExempt}
        onTick={(checked) => onChange({ taxExempt: checked })}
      />
      {fields.taxExempt && <TextField label={exemptNo.label} {...field('exemptNo')} />}
    </>
  );
}

interface DetailsFormProps {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly details: BuyerAsTyped;
}

/** Sets what the buyer has shown; an invoice that was issued before is corrected by a further one. */
export function DetailsForm({ saleId, buyerNo, details }: DetailsFormProps) {
  const [fields, setFields] = useState(details);
  const [done, setDone] = useSaid<boolean>();
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const amend = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const reply = await give('buyer.amend', { saleId, buyerNo, ...fields }, `Details of buyer ${buyerNo}`);
    setDone(reply.ok);
  };
  const change = (over: Partial<BuyerAsTyped>) => {
    setFields({ ...fields, ...over });
    setDone(false);
  };
  return (
    <form onSubmit={(event) => void amend(event)} aria-label="Details">
      {done && <Notice kind="done" title="Kept." />}
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      <div className="fields">
        <BuyerFields {...{ fields, errorOf }} onChange={change} />
      </div>
      <SubmitActs label="Keep the details" main />
    </form>
  );
}

'use client';

import { type FormEvent, useState } from 'react';
import { BuyerFields } from '#app/(stations)/till/buyer-fields.tsx';
import { SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { BuyerAsTyped } from '#lib/buyer/fields.ts';

interface DetailsFormProps {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly details: BuyerAsTyped;
}

/** Sets what the buyer has shown; an invoice that was issued before is corrected by a further one. */
export function DetailsForm({ saleId, buyerNo, details }: DetailsFormProps) {
  const [fields, setFields] = useState(details);
  const [done, setDone] = useState(false);
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const amend = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const input = { saleId, buyerNo, ...fields };
    const reply = await give('buyer.amend', input, `Details of buyer ${buyerNo}`);
    setDone(reply.ok);
  };
  return (
    <form onSubmit={(event) => void amend(event)} aria-label="Details">
      {done && <Notice kind="done" title="Kept." />}
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      <div className="fields">
        <BuyerFields
          {...{ fields, errorOf }}
          onChange={(over) => {
            setFields({ ...fields, ...over });
            setDone(false);
          }}
        />
      </div>
      <SubmitActs label="Keep the details" main />
    </form>
  );
}

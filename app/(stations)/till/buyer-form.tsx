'use client';

import { type FormEvent, useState } from 'react';
import { CheckField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { emptyTyped } from '#lib/field/fields.ts';
import { BuyerFields } from './buyer-fields.tsx';

interface BuyerFormProps {
  readonly saleId: number;
  readonly region: string;
  readonly person: { readonly personId: number; readonly name: string };
  readonly onGiven: (buyerNo: number) => void;
  readonly onLeave: () => void;
}

/** What a buyer shows at the till; the book gives the next free number. */
export function BuyerForm({ saleId, region, person, onGiven, onLeave }: BuyerFormProps) {
  const [fields, setFields] = useState({
    ...emptyTyped(BUYER_FIELDS),
    ...{ licenceRegion: region, cleared: false },
  });
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const register = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const input = { saleId, personId: person.personId, ...fields };
    const reply = await give('buyer.register', input, `Buyer ${person.name}`);
    if (reply.ok) onGiven(reply.value.buyerNo);
  };
  return (
    <form onSubmit={(event) => void register(event)} aria-labelledby="new-buyer">
      <h3 id="new-buyer">{person.name}</h3>
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      <div className="fields">
        <BuyerFields {...{ fields, errorOf }} onChange={(over) => setFields({ ...fields, ...over })} />
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

'use client';

import { type FormEvent, useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { PartnerView } from '#db/queries/payout-seller-view.ts';

interface PayPartnerProps {
  readonly saleId: number;
  readonly sellerNo: number;
  readonly personId: number;
  readonly name: string;
  readonly due: NonNullable<PartnerView['due']>;
}

/** Checks to a partner are written with their number; here is what goes by hand. */
const METHODS = {
  out: { cash: 'Cash', other: 'Other' },
  in: { cash: 'Cash', check: 'Check', card: 'Card', other: 'Other' },
} as const;

/** Pays a partner in cash, or takes in what a partner owes. */
export function PayPartner({ saleId, sellerNo, personId, name, due }: PayPartnerProps) {
  const [typed, setTyped] = useState({ method: 'cash', amount: null as string | null, reference: '' });
  const { give, busy, refusal, errorOf } = useGive('payout');
  const { direction } = due;
  const amount = typed.amount ?? due.amount;
  const pay = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const { method, reference } = typed;
    const input = { saleId, direction, sellerNo, personId, method, amount, reference };
    const reply = await give({ command: 'payment.record', input, label: `Payment of ${name}` });
    if (reply.ok) setTyped({ method: 'cash', amount: null, reference: '' });
  };
  return (
    <details>
      <summary>{direction === 'out' ? `Pay ${name} by hand` : `Take in what ${name} owes`}</summary>
      <form onSubmit={(event) => void pay(event)}>
        {refusal && errorOf('amount') === undefined && <Notice kind="stop" title={refusal.message} />}
        <div className="fields">
          <TextField
            label="Amount"
            inputMode="decimal"
            error={errorOf('amount')}
            value={amount}
            onChange={(event) => setTyped({ ...typed, amount: event.target.value })}
          />
          <ChoiceField
            label="By"
            value={typed.method}
            onChange={(event) => setTyped({ ...typed, method: event.target.value })}
          >
            {Object.entries(METHODS[direction]).map(([method, words]) => (
              <option key={method} value={method}>
                {words}
              </option>
            ))}
          </ChoiceField>
          <TextField
            label="Reference"
            hint="Such as the number of their check"
            value={typed.reference}
            onChange={(event) => setTyped({ ...typed, reference: event.target.value })}
          />
        </div>
        <div className="acts">
          <button type="submit" disabled={busy}>
            {direction === 'out' ? 'Paid' : 'Taken in'}
          </button>
        </div>
      </form>
    </details>
  );
}

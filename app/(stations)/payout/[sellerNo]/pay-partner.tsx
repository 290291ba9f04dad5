'use client';

import { type FormEvent, useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { usePayment } from '#app/ui/use-payment.tsx';
import type { PartnerView } from '#db/queries/payout-seller-view.ts';
import type { Method } from '#lib/facts.ts';

interface PayPartnerProps {
  readonly saleId: number;
  readonly sellerNo: number;
  readonly personId: number;
  readonly name: string;
  /** What may be paid or taken in now; null where nothing may. */
  readonly due: PartnerView['due'];
}

/** Checks to a partner are written with their number; here is what goes by hand. */
const METHODS = {
  out: { cash: 'Cash', other: 'Other' },
  in: { cash: 'Cash', check: 'Check', card: 'Card', other: 'Other' },
} as const;

const FRESH: { readonly method: Method; readonly amount: string | null; readonly reference: string } = {
  ...{ method: 'cash', amount: null, reference: '' },
};

/**
 * Pays a partner in cash, or takes in what a partner owes. What became of it stays to be read when nothing is due any
 * more: of two who pay at once, one must see that the money is not to be handed over again.
 */
export function PayPartner({ saleId, sellerNo, personId, name, due }: PayPartnerProps) {
  const [typed, setTyped] = useState(FRESH);
  const [done, setDone] = useState('');
  const { pay, question, leave, busy, elsewhere, errorOf } = usePayment('payout');
  const set = (over: Partial<typeof typed>) => {
    setTyped({ ...typed, ...over });
    if (question) leave();
  };
  const record = async (event: FormEvent) => {
    event.preventDefault();
    if (busy || !due) return;
    setDone('');
    const { direction } = due;
    const { method, reference } = typed;
    const amount = typed.amount ?? due.amount;
    const input = { saleId, direction, sellerNo, personId, method, amount, reference };
    const onDone = () => {
      setDone(direction === 'out' ? `${amount} paid to ${name}.` : `${amount} taken in from ${name}.`);
      setTyped(FRESH);
    };
    await pay({ input, label: `Payment of ${name}`, onDone });
  };
  return (
    <>
      {done && <Notice kind="done" title={done} />}
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      {question}
      {due && (
        <details>
          <summary>{due.direction === 'out' ? `Pay ${name} by hand` : `Take in what ${name} owes`}</summary>
          <form onSubmit={(event) => void record(event)}>
            <div className="fields">
              <TextField
                label="Amount"
                inputMode="decimal"
                error={errorOf('amount')}
                value={typed.amount ?? due.amount}
                onChange={(event) => set({ amount: event.target.value })}
              />
              <ChoiceField
                label="By"
                value={typed.method}
                onChange={(event) => set({ method: event.target.value as Method })}
              >
                {Object.entries(METHODS[due.direction]).map(([method, words]) => (
                  <option key={method} value={method}>
                    {words}
                  </option>
                ))}
              </ChoiceField>
              <TextField
                label="Reference"
                hint="Such as the number of their check"
                value={typed.reference}
                onChange={(event) => set({ reference: event.target.value })}
              />
            </div>
            <div className="acts">
              <button type="submit" disabled={busy}>
                {due.direction === 'out' ? 'Paid' : 'Taken in'}
              </button>
            </div>
          </form>
        </details>
      )}
    </>
  );
}

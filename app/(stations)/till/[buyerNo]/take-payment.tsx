'use client';

import { type FormEvent, useState } from 'react';
import { usePayment } from '#app/(stations)/use-payment.tsx';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { BuyerView } from '#db/buyer/queries.ts';
import { METHOD_WORDS } from '#lib/buyer/buyer.ts';
import { changeFor } from '#lib/drawer/cash.ts';
import { showMoney } from '#lib/money/money.ts';
import type { Refusal } from '#lib/result/result.ts';
import type { Method } from '#lib/sale/facts.ts';

interface TakePaymentProps {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly due: BuyerView['due'];
}

/** The amount is what is due until something else is typed over it. */
const FRESH = { method: 'cash' as Method, amount: null as string | null, given: '', reference: '' };

/** Takes money from the buyer, or hands some back: for cash, type what was given and press Enter. */
export function TakePayment({ saleId, buyerNo, due }: TakePaymentProps) {
  const [typed, setTyped] = useState(FRESH);
  const [short, setShort] = useState<Refusal>();
  const [done, setDone] = useState<string>();
  const { pay, question, leave, busy, stale, elsewhere, errorOf } = usePayment('till');
  const amount = typed.amount ?? due?.amount ?? '';
  const takesCash = typed.method === 'cash' && due?.direction === 'in';
  const change = changeFor(amount, takesCash ? typed.given : '');

  const set = (over: Partial<typeof FRESH>) => {
    setTyped({ ...typed, ...over });
    setShort(undefined);
    if (question) leave();
  };
  const record = async (event: FormEvent) => {
    event.preventDefault();
    if (busy || stale || !due) return;
    setDone(undefined);
    setShort(change.ok ? undefined : change);
    if (!change.ok) return;
    const { method, reference } = typed;
    const input = { saleId, direction: due.direction, buyerNo, method, amount, reference };
    const what = due.direction === 'in' ? 'taken' : 'handed back';
    const onDone = () => {
      setDone(`${amount} ${what}.${takesCash && typed.given ? ` Change ${showMoney(change.value)}.` : ''}`);
      // What was typed since is for the next payment.
      setTyped((now) => (now === typed ? FRESH : now));
    };
    await pay({ input, label: `Payment of buyer ${buyerNo}`, onDone });
  };
  const wrong = (field: string) => (short?.field === field ? short.message : errorOf(field));
  return (
    <>
      {done && <Notice kind="done" title={done} />}
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      {question}
      {due && (
        <form onSubmit={(event) => void record(event)} aria-label="Payment">
          <div className="fields">
            {takesCash && (
              <TextField
                label="Cash given"
                hint={typed.given && change.ok ? `Change ${showMoney(change.value)}` : 'Empty for the exact amount'}
                inputMode="decimal"
                autoFocus
                error={wrong('given')}
                value={typed.given}
                onChange={(event) => set({ given: event.target.value })}
              />
            )}
            <TextField
              label={due.direction === 'in' ? 'Amount taken' : 'Amount handed back'}
              inputMode="decimal"
              error={wrong('amount')}
              value={amount}
              onChange={(event) => set({ amount: event.target.value })}
            />
            <ChoiceField
              label="By"
              value={typed.method}
              onChange={(event) => set({ method: event.target.value as Method })}
            >
              {Object.entries(METHOD_WORDS).map(([method, words]) => (
                <option key={method} value={method}>
                  {words}
                </option>
              ))}
            </ChoiceField>
            <TextField
              label="Reference"
              hint="Such as the number of the check"
              error={wrong('reference')}
              value={typed.reference}
              onChange={(event) => set({ reference: event.target.value })}
            />
          </div>
          <div className="acts">
            {/* The amount that stands there is true again once the page has read what is owing now. */}
            <button type="submit" className="act" disabled={busy || stale}>
              {due.direction === 'in' ? 'Take the payment' : 'Hand it back'}
            </button>
          </div>
        </form>
      )}
    </>
  );
}

interface ClearanceProps {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly cleared: boolean;
}

/** Clears the buyer to buy, or takes the clearance back. */
export function Clearance({ saleId, buyerNo, cleared }: ClearanceProps) {
  const { give, busy, refusal } = useGive('till');
  const input = { saleId, buyerNo, cleared: !cleared };
  return (
    <div className="clearance">
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <button
        type="button"
        disabled={busy}
        onClick={() => void give('buyer.clear', input, `Clearance of buyer ${buyerNo}`)}
      >
        {cleared ? 'Take the clearance back' : 'Clear to buy'}
      </button>
    </div>
  );
}

'use client';

import type { FormEvent } from 'react';
import { PaymentFields, usePayment } from '#app/(stations)/use-payment.tsx';
import { TextField } from '#app/ui/field.tsx';
import { SubmitActs } from '#app/ui/form.tsx';
import { unsayAll, useSaid } from '#app/ui/use-give.ts';
import type { BuyerView } from '#db/buyer/queries.ts';
import { HANDED_WORDS } from '#lib/buyer/buyer.ts';
import { changeFor } from '#lib/drawer/cash.ts';
import { showMoney } from '#lib/money/money.ts';
import { typedInWords } from '#lib/payment/amount-words.ts';
import type { Refusal } from '#lib/result/result.ts';

interface TakePaymentProps {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly due: BuyerView['due'];
  /** The payments that were voided. */
  readonly voided: readonly number[];
}

/** Takes money from the buyer, or hands some back: for cash, type what was given and press Enter. */
export function TakePayment({ saleId, buyerNo, due, voided }: TakePaymentProps) {
  const [short, setShort] = useSaid<Refusal>();
  const payment = usePayment('till', due, voided);
  const { pay, told, typed, amount, busy, stale } = payment;
  const takesCash = typed.method === 'cash' && due?.direction === 'in';
  const change = changeFor(amount, takesCash ? typed.given : '');

  const set: typeof payment.set = (over) => {
    payment.set(over);
    setShort(undefined);
  };
  const record = async (event: FormEvent) => {
    event.preventDefault();
    if (busy || stale || !due) return;
    unsayAll();
    if (!change.ok) return setShort(change);
    const what = due.direction === 'in' ? 'taken' : 'handed back';
    const done = `${typedInWords(amount)} ${what}.${takesCash && typed.given ? ` Change ${showMoney(change.value)}.` : ''}`;
    await pay({ party: { saleId, buyerNo }, label: `Payment of buyer ${buyerNo}`, done });
  };
  const errorOf = (field: string) => (short?.field === field ? short.message : payment.errorOf(field));
  return (
    <>
      {told}
      {due && (
        <form onSubmit={(event) => void record(event)} aria-label="Payment">
          <div className="fields">
            {takesCash && (
              <TextField
                label="Cash given"
                hint={typed.given && change.ok ? `Change ${showMoney(change.value)}` : 'Empty for the exact amount'}
                inputMode="decimal"
                autoFocus
                error={errorOf('given')}
                value={typed.given}
                onText={(given) => set({ given })}
              />
            )}
            <PaymentFields
              payment={{ typed, amount, set, errorOf }}
              amountLabel={due.direction === 'in' ? 'Amount taken' : 'Amount handed back'}
              methods={HANDED_WORDS}
              hint="Such as the number of the check"
            />
          </div>
          {/* The amount that stands there is true again once the page has read what is owing now. */}
          <SubmitActs
            label={due.direction === 'in' ? 'Take the payment' : 'Hand it back'}
            main
            disabled={busy || stale}
          />
        </form>
      )}
    </>
  );
}

'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface VoidPaymentProps {
  readonly paymentId: number;
  readonly amount: string;
}

/** Takes a payment back, with the reason. */
export function VoidPayment({ paymentId, amount }: VoidPaymentProps) {
  const [reason, setReason] = useState('');
  const { give, busy, refusal, errorOf } = useGive('till');
  const voidIt = (event: FormEvent) => {
    event.preventDefault();
    if (!busy) void give({ command: 'payment.void', input: { paymentId, reason }, label: `Void ${amount}` });
  };
  return (
    <details>
      <summary>Void {amount}</summary>
      <form onSubmit={voidIt}>
        {refusal && errorOf('reason') === undefined && <Notice kind="stop" title={refusal.message} />}
        <TextField
          label="Why it is voided"
          error={errorOf('reason')}
          value={reason}
          onChange={(event) => setReason(event.target.value)}
        />
        <div className="acts">
          <button type="submit">Void the payment</button>
        </div>
      </form>
    </details>
  );
}

'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/text.tsx';
import type { TypedInput } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';

type Without<N extends 'payment.void' | 'drawer.void'> = Omit<TypedInput<N>, 'reason'>;

interface VoidFormProps {
  /** Which one, as its command asks for it. */
  readonly voids:
    | ({ readonly command: 'payment.void' } & Without<'payment.void'>)
    | ({ readonly command: 'drawer.void' } & Without<'drawer.void'>);
  readonly summary: string;
  /** How the entry is called while it waits. */
  readonly label: string;
  readonly act: string;
}

/** Takes something back that was written down, with the reason. */
export function VoidForm({ voids, summary, label, act }: VoidFormProps) {
  const [reason, setReason] = useState('');
  const { give, busy, refusal, errorOf } = useGive('till');
  const voidIt = (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    if (voids.command === 'payment.void') void give(voids.command, { paymentId: voids.paymentId, reason }, label);
    else void give(voids.command, { entryId: voids.entryId, reason }, label);
  };
  return (
    <details>
      <summary>{summary}</summary>
      <form onSubmit={voidIt}>
        {refusal && errorOf('reason') === undefined && <Notice kind="stop" title={refusal.message} />}
        <TextField
          label="Why it is voided"
          error={errorOf('reason')}
          value={reason}
          onChange={(event) => setReason(event.target.value)}
        />
        <div className="acts">
          <button type="submit">{act}</button>
        </div>
      </form>
    </details>
  );
}

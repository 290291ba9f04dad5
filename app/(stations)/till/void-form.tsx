'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface VoidFormProps {
  readonly command: 'payment.void' | 'drawer.void';
  /** Which one, as the command asks for it. */
  readonly which: Readonly<Record<string, number>>;
  readonly summary: string;
  /** How the entry is called while it waits. */
  readonly label: string;
  readonly act: string;
}

/** Takes something back that was written down, with the reason. */
export function VoidForm({ command, which, summary, label, act }: VoidFormProps) {
  const [reason, setReason] = useState('');
  const { give, busy, refusal, errorOf } = useGive('till');
  const voidIt = (event: FormEvent) => {
    event.preventDefault();
    if (!busy) void give({ command, input: { ...which, reason }, label });
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

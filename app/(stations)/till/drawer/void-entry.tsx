'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

/** Takes the newest entry of the drawer back, with the reason. */
export function VoidEntry({ entryId }: { readonly entryId: number }) {
  const [reason, setReason] = useState('');
  const { give, busy, refusal, errorOf } = useGive('till');
  const voidIt = (event: FormEvent) => {
    event.preventDefault();
    if (!busy) void give({ command: 'drawer.void', input: { entryId, reason }, label: 'Void an entry of the drawer' });
  };
  return (
    <details>
      <summary>Void this entry</summary>
      <form onSubmit={voidIt}>
        {refusal && errorOf('reason') === undefined && <Notice kind="stop" title={refusal.message} />}
        <TextField
          label="Why it is voided"
          error={errorOf('reason')}
          value={reason}
          onChange={(event) => setReason(event.target.value)}
        />
        <div className="acts">
          <button type="submit">Void the entry</button>
        </div>
      </form>
    </details>
  );
}

'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

/** Takes a lot back over the counter, with the reason. */
export function TakeBack({ saleId, lotNo }: { readonly saleId: number; readonly lotNo: string }) {
  const [reason, setReason] = useState('');
  const { give, busy, refusal, errorOf } = useGive('till');
  const takeBack = (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    void give({ command: 'handover.return', input: { saleId, lotNo, reason }, label: `Lot ${lotNo} back` });
  };
  return (
    <details className="more">
      <summary>Lot {lotNo} came back</summary>
      <form onSubmit={takeBack}>
        {refusal && errorOf('reason') === undefined && <Notice kind="stop" title={refusal.message} />}
        <TextField
          label="Why it came back"
          error={errorOf('reason')}
          value={reason}
          onChange={(event) => setReason(event.target.value)}
        />
        <div className="acts">
          <button type="submit">Take lot {lotNo} back</button>
        </div>
      </form>
    </details>
  );
}

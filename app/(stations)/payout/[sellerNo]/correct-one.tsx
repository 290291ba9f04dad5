'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface CorrectOneProps {
  readonly saleId: number;
  readonly sellerNo: number;
  readonly sheetNumber: number | null;
}

/** Says that the sheet is no longer right, and issues the correction sheet with the reason. */
export function CorrectOne({ saleId, sellerNo, sheetNumber }: CorrectOneProps) {
  const [reason, setReason] = useState('');
  const { give, busy, refusal, errorOf } = useGive('payout');
  const correct = (event: FormEvent) => {
    event.preventDefault();
    const input = { saleId, sellerNo, reason };
    if (!busy) void give('settlement.correct', input, `Correction of seller ${sellerNo}`);
  };
  return (
    <form className="notice" data-kind="wait" onSubmit={correct} aria-label="Correction">
      <p>
        <strong>The sums have changed since sheet {sheetNumber} was issued.</strong> That sheet stays as it was; a
        correction sheet says what is right now, and the difference.
      </p>
      {refusal && errorOf('reason') === undefined && <Notice kind="stop" title={refusal.message} />}
      <TextField
        label="Why it is corrected"
        hint="Such as: price of lot 12 misheard"
        error={errorOf('reason')}
        value={reason}
        onChange={(event) => setReason(event.target.value)}
      />
      <div className="acts">
        <button type="submit" className="act" disabled={busy}>
          Issue the correction sheet
        </button>
      </div>
    </form>
  );
}

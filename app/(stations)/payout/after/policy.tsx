'use client';

import { type FormEvent, useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface PolicyProps {
  readonly saleId: number;
  readonly sellersWait: boolean;
  readonly statementDays: number;
}

/** Whether sellers wait for their buyers, and after how many days a statement of held furs is due. */
export function Policy({ saleId, sellersWait, statementDays }: PolicyProps) {
  const [typed, setTyped] = useState({ sellersWait, days: String(statementDays) });
  const [kept, setKept] = useState(false);
  const { give, busy, refusal, errorOf } = useGive('payout');
  const keep = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const input = { saleId, sellersWait: typed.sellersWait, statementDays: wholeNumber(typed.days) };
    const reply = await give('payout.policy', input, 'Settings of payout');
    setKept(reply.ok);
  };
  const error = errorOf('statementDays');
  return (
    <form onSubmit={(event) => void keep(event)} aria-label="Settings">
      {kept && <Notice kind="done" title="Kept." />}
      {refusal && !error && <Notice kind="stop" title={refusal.message} />}
      <CheckField
        label="A seller is paid only once the buyers of all their lots have paid"
        checked={typed.sellersWait}
        onChange={(event) => setTyped({ ...typed, sellersWait: event.target.checked })}
      />
      <TextField
        label="Days from the season’s close to the statement"
        hint="10 in Nebraska, for example; ask your wildlife agency"
        inputMode="numeric"
        error={error}
        value={typed.days}
        onChange={(event) => setTyped({ ...typed, days: event.target.value })}
      />
      <div className="acts">
        <button type="submit" disabled={busy}>
          Keep the settings
        </button>
      </div>
    </form>
  );
}

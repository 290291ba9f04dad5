'use client';

import { type FormEvent, useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface PayoutSettingsProps {
  readonly saleId: number;
  readonly sellersWait: boolean;
  readonly statementDays: number;
}

/** Whether sellers wait for their buyers, and after how many days a statement of held furs is due. */
export function PayoutSettings({ saleId, sellersWait, statementDays }: PayoutSettingsProps) {
  const [wait, setWait] = useState(sellersWait);
  const [saved, setSaved] = useState(false);
  const { give, busy, refusal, errorOf } = useGive('payout');
  const { texts, field } = useTexts({ statementDays: String(statementDays) }, errorOf);
  const save = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const input = { saleId, sellersWait: wait, statementDays: wholeNumber(texts.statementDays) };
    const reply = await give('payout.policy', input, 'Settings of payout');
    setSaved(reply.ok);
  };
  return (
    <form onSubmit={(event) => void save(event)} aria-label="Settings">
      {saved && <Notice kind="done" title="Kept." />}
      {refusal && !errorOf('statementDays') && <Notice kind="stop" title={refusal.message} />}
      <CheckField
        label="A seller is paid only once the buyers of all their lots have paid"
        checked={wait}
        onChange={(event) => setWait(event.target.checked)}
      />
      <TextField
        label="Days from the season’s close to the statement"
        hint="10 in Nebraska, for example; ask your wildlife agency"
        inputMode="numeric"
        {...field('statementDays')}
      />
      <SubmitActs label="Keep the settings" disabled={busy} />
    </form>
  );
}

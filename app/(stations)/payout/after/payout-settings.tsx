'use client';

import { useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
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
  const { give, busy, elsewhere, errorOf } = useGive('payout');
  const { texts, field } = useTexts({ statementDays: String(statementDays) }, errorOf);
  const save = async () => {
    const input = { saleId, sellersWait: wait, statementDays: wholeNumber(texts.statementDays) };
    const reply = await give('payout.policy', input, 'Settings of payout');
    setSaved(reply.ok);
  };
  return (
    <Form onEntered={save} busy={busy} done={saved && 'Kept.'} wrong={elsewhere} aria-label="Settings">
      <CheckField
        label="A seller is paid only once the buyers of all their lots have paid"
        checked={wait}
        onTick={setWait}
      />
      <TextField
        label="Days from the season’s close to the statement"
        hint="10 in Nebraska, for example; ask your wildlife agency"
        inputMode="numeric"
        {...field('statementDays')}
      />
      <SubmitActs label="Keep the settings" disabled={busy} />
    </Form>
  );
}

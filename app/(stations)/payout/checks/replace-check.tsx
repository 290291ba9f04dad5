'use client';

import type { FormEvent } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Options, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { type TypedInput, wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { CheckRow } from '#db/payment/queries.ts';

interface ReplaceCheckProps {
  readonly checks: readonly Pick<CheckRow, 'checkId' | 'paymentId' | 'number' | 'name'>[];
  readonly likely: number;
}

/** Voids a check that was lost or spoiled, and writes another in its place where one is wanted. */
export function ReplaceCheck({ checks, likely }: ReplaceCheckProps) {
  const { give, busy, elsewhere, errorOf } = useGive('payout');
  const { texts, set, field } = useTexts({ checkId: '', reason: '', number: String(likely) }, errorOf);
  const chosen = checks.find(({ checkId }) => String(checkId) === texts.checkId);
  const { reason } = texts;
  const send = async <N extends 'check.reissue' | 'payment.void'>(command: N, input: TypedInput<N>) => {
    if (busy) return;
    const reply = await give(command, input, `Check ${chosen?.number}`);
    if (reply.ok) set({ checkId: '', reason: '', number: String(likely + 1) });
  };
  const reissue = (event: FormEvent) => {
    event.preventDefault();
    if (chosen) void send('check.reissue', { checkId: chosen.checkId, number: wholeNumber(texts.number), reason });
  };
  return (
    <form onSubmit={reissue} aria-labelledby="lost">
      <h2 id="lost">A check was lost or spoiled</h2>
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      <ChoiceField label="Which check" {...field('checkId')}>
        <option value="">Choose one</option>
        <Options of={checks.map(({ checkId, number, name }) => [checkId, `${number}, ${name}`])} />
      </ChoiceField>
      <TextField label="Why it is void" {...field('reason')} />
      <TextField label="Number of the new check" inputMode="numeric" {...field('number')} />
      <div className="acts">
        <button type="submit" className="act" disabled={busy || !chosen}>
          Write it anew
        </button>
        <button
          type="button"
          disabled={busy || !chosen}
          onClick={() => chosen && void send('payment.void', { paymentId: chosen.paymentId, reason })}
        >
          Void it only
        </button>
      </div>
    </form>
  );
}

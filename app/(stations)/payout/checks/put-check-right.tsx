'use client';

import { type FormEvent, useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { type TypedInput, wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface GoodCheck {
  readonly checkId: number;
  readonly paymentId: number;
  readonly number: number;
  readonly name: string;
}

interface PutCheckRightProps {
  readonly checks: readonly GoodCheck[];
  readonly likely: number;
}

/** Voids a check that was lost or spoiled, and writes another in its place where one is wanted. */
export function PutCheckRight({ checks, likely }: PutCheckRightProps) {
  const [typed, setTyped] = useState({ checkId: '', reason: '', number: String(likely) });
  const { give, busy, elsewhere, errorOf } = useGive('payout');
  const chosen = checks.find(({ checkId }) => String(checkId) === typed.checkId);
  const { reason } = typed;
  const send = async <N extends 'check.reissue' | 'payment.void'>(command: N, input: TypedInput<N>) => {
    if (busy) return;
    const reply = await give(command, input, `Check ${chosen?.number}`);
    if (reply.ok) setTyped({ checkId: '', reason: '', number: String(likely + 1) });
  };
  const reissue = (event: FormEvent) => {
    event.preventDefault();
    if (chosen) void send('check.reissue', { checkId: chosen.checkId, number: wholeNumber(typed.number), reason });
  };
  return (
    <form onSubmit={reissue} aria-labelledby="lost">
      <h2 id="lost">A check was lost or spoiled</h2>
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      <ChoiceField
        label="Which check"
        value={typed.checkId}
        onChange={(event) => setTyped({ ...typed, checkId: event.target.value })}
      >
        <option value="">Choose one</option>
        {checks.map(({ checkId, number, name }) => (
          <option key={checkId} value={checkId}>
            {number}, {name}
          </option>
        ))}
      </ChoiceField>
      <TextField
        label="Why it is void"
        error={errorOf('reason')}
        value={reason}
        onChange={(event) => setTyped({ ...typed, reason: event.target.value })}
      />
      <TextField
        label="Number of the new check"
        inputMode="numeric"
        error={errorOf('number')}
        value={typed.number}
        onChange={(event) => setTyped({ ...typed, number: event.target.value })}
      />
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

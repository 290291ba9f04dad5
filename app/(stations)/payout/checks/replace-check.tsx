'use client';

import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Form, Options, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { type TypedInput, wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { CheckRow } from '#db/payment/queries.ts';

interface ReplaceCheckProps {
  readonly checks: readonly Pick<CheckRow, 'checkId' | 'paymentId' | 'number' | 'name'>[];
  readonly likely: number;
  /** A closed sale takes a check back as lost or stopped only. */
  readonly closed: boolean;
}

const HAPPENED = { spoiled: 'It was spoiled', lost: 'It was lost', stopped: 'The bank stopped it' } as const;
type Happened = keyof typeof HAPPENED;

/** Voids a check that was lost or spoiled, and writes another in its place where one is wanted. */
export function ReplaceCheck({ checks, likely, closed }: ReplaceCheckProps) {
  const { give, busy, elsewhere, errorOf } = useGive('payout');
  const { texts, set, field } = useTexts(
    { checkId: '', happened: closed ? 'lost' : 'spoiled', reason: '', number: String(likely) },
    errorOf,
  );
  const chosen = checks.find(({ checkId }) => String(checkId) === texts.checkId);
  const { reason } = texts;
  const send = async <N extends 'check.reissue' | 'check.stop' | 'payment.void'>(command: N, input: TypedInput<N>) => {
    const reply = await give(command, input, `Check ${chosen?.number}`);
    if (reply.ok) set({ checkId: '', reason: '', number: String(likely + 1) });
  };
  const reissue = () => {
    if (chosen) void send('check.reissue', { checkId: chosen.checkId, number: wholeNumber(texts.number), reason });
  };
  const voidOnly = () => {
    if (!chosen) return;
    const { checkId, paymentId } = chosen;
    const kind = texts.happened as Happened;
    if (kind === 'spoiled') void send('payment.void', { paymentId, reason });
    else void send('check.stop', { checkId, kind, reason });
  };
  const happened = Object.entries(HAPPENED).filter(([kind]) => !closed || kind !== 'spoiled');
  return (
    <Form onEntered={reissue} busy={busy} wrong={elsewhere} aria-labelledby="lost">
      <h2 id="lost">A check was lost or spoiled</h2>
      <ChoiceField label="Which check" {...field('checkId')}>
        <option value="">Choose one</option>
        <Options of={checks.map(({ checkId, number, name }) => [checkId, `${number}, ${name}`])} />
      </ChoiceField>
      <ChoiceField label="What happened" {...field('happened')}>
        <Options of={happened} />
      </ChoiceField>
      <TextField label="Why it is void" {...field('reason')} />
      <TextField label="Number of the new check" inputMode="numeric" {...field('number')} />
      <SubmitActs label="Write it anew" main disabled={busy || !chosen}>
        <button type="button" disabled={busy || !chosen} onClick={voidOnly}>
          Void it only
        </button>
      </SubmitActs>
    </Form>
  );
}

'use client';

import { useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Form, Options, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { useGive, useSaid } from '#app/ui/use-give.ts';
import { HANDED_WORDS } from '#lib/buyer/buyer.ts';
import { typedInWords } from '#lib/payment/amount-words.ts';
import { TAKING_WORDS } from '#lib/payment/taking.ts';
import type { Handed, TakingKind } from '#lib/sale/facts.ts';

/** One line a taking. The kind stays chosen, because a table sells one thing after another of the same. */
export function TakingForm({ saleId, voided }: { readonly saleId: number; readonly voided: readonly number[] }) {
  const [kind, setKind] = useState<TakingKind>('raffle');
  const [method, setMethod] = useState<Handed>('cash');
  const [done, setDone] = useSaid<{ readonly words: string; readonly takingId: number }>();
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const { texts, field, reset } = useTexts({ amount: '', note: '' }, errorOf, () => setDone(undefined));
  const record = async () => {
    const reply = await give('taking.record', { saleId, kind, method, ...texts }, `${TAKING_WORDS[kind]} taking`);
    if (!reply.ok) return;
    const words = `${typedInWords(texts.amount)} taken, ${TAKING_WORDS[kind].toLowerCase()}.`;
    setDone({ words, takingId: reply.value.takingId });
    setMethod('cash');
    reset();
  };
  return (
    <Form
      onEntered={record}
      busy={busy}
      done={done && !voided.includes(done.takingId) && done.words}
      wrong={elsewhere}
      aria-label="Taking"
    >
      <div className="fields">
        <ChoiceField label="What for" value={kind} onPick={(value) => setKind(value as TakingKind)}>
          <Options of={Object.entries(TAKING_WORDS)} />
        </ChoiceField>
        <TextField label="Amount" inputMode="decimal" autoFocus {...field('amount')} />
        <ChoiceField label="By" value={method} onPick={(value) => setMethod(value as Handed)}>
          <Options of={Object.entries(HANDED_WORDS)} />
        </ChoiceField>
        <TextField label="Note" hint="Of Other: what it is" {...field('note')} />
      </div>
      <SubmitActs label="Record it" main />
    </Form>
  );
}

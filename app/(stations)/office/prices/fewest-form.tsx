'use client';

import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Form } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/text.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';

/** Sets how many sellers and buyers a published price needs at least. */
export function FewestForm({ fewest }: { readonly fewest: number }) {
  const [typed, setTyped] = useState(String(fewest));
  const [saved, setSaved] = useState(false);
  const { give, busy, refusal, errorOf } = useGive('office');
  const save = async () => {
    if (busy) return;
    const input = { fewest: wholeNumber(typed) };
    const reply = await give('prices.fewest', input, 'Fewest behind a price');
    setSaved(reply.ok);
  };
  const error = errorOf('fewest');
  return (
    <Form className="few" onEntered={save} aria-label="Fewest behind a price">
      {saved && <Notice kind="done" title="Kept. The price pages follow at once." />}
      {refusal && !error && <Notice kind="stop" title={refusal.message} />}
      <div className="fields">
        <TextField
          label="Fewest sellers, and fewest buyers"
          hint="1 to 99; 1 shows everything"
          error={error}
          wide
          inputMode="numeric"
          value={typed}
          onChange={(event) => {
            setTyped(event.target.value);
            setSaved(false);
          }}
        />
      </div>
      <div className="acts">
        <button type="submit" className="act">
          Keep the number
        </button>
      </div>
    </Form>
  );
}

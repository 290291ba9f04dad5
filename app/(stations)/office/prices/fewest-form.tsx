'use client';

import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Form } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';

/** The number, as it is being typed. */
export function FewestForm({ fewest }: { readonly fewest: number }) {
  const [typed, setTyped] = useState(String(fewest));
  const [kept, setKept] = useState(false);
  const { give, busy, refusal, errorOf } = useGive('office');
  const keep = async () => {
    if (busy) return;
    const input = { fewest: wholeNumber(typed) };
    const reply = await give('prices.fewest', input, 'Fewest behind a price');
    setKept(reply.ok);
  };
  const error = errorOf('fewest');
  return (
    <Form className="few" onEntered={keep} aria-label="Fewest behind a price">
      {kept && <Notice kind="done" title="Kept. The price pages follow at once." />}
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
            setKept(false);
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

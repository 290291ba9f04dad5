'use client';

import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';

/** Sets how many sellers and buyers a published price needs at least. */
export function FewestForm({ fewest }: { readonly fewest: number }) {
  const [saved, setSaved] = useState(false);
  const { give, busy, elsewhere, errorOf } = useGive('office');
  const { texts, field } = useTexts({ fewest: String(fewest) }, errorOf, () => setSaved(false));
  const save = async () => {
    const reply = await give('prices.fewest', { fewest: wholeNumber(texts.fewest) }, 'Fewest behind a price');
    setSaved(reply.ok);
  };
  return (
    <Form
      className="few"
      busy={busy}
      onEntered={save}
      done={saved && 'Kept. The price pages follow at once.'}
      wrong={elsewhere}
      aria-label="Fewest behind a price"
    >
      <div className="fields">
        <TextField
          label="Fewest sellers, and fewest buyers"
          hint="1 to 99; 1 shows everything"
          wide
          inputMode="numeric"
          {...field('fewest')}
        />
      </div>
      <SubmitActs label="Keep the number" main />
    </Form>
  );
}

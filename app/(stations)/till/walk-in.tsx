'use client';

import { useRouter } from 'next/navigation';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { emptyTyped, fieldNames, hintOf } from '#lib/field/fields.ts';
import { LICENCE_FIELDS } from '#lib/person/fields.ts';

/**
 * A number for somebody who has none, and the way to their account. Where the table asks for a license, the book says so
 * and `asks` is the form for it; `walkIn` gives what stands there.
 */
export function useWalkIn(saleId: number) {
  const router = useRouter();
  const { give, busy, refusal, elsewhere, errorOf } = useGive('till');
  const { texts, field } = useTexts(emptyTyped(LICENCE_FIELDS), errorOf);
  const walkIn = async () => {
    if (busy) return;
    const reply = await give('buyer.walkin', { saleId, ...texts }, 'Walk-in buyer');
    if (reply.ok) router.push(`/till/${reply.value.buyerNo}?sale=${saleId}`);
  };
  if (!refusal) return { walkIn, busy, asks: null };
  if (!refusal.field?.startsWith('licence')) {
    return { walkIn, busy, asks: <Notice kind="stop" title={refusal.message} /> };
  }
  const asks = (
    <Form onEntered={walkIn} busy={busy} wrong={elsewhere} aria-label="Walk-in">
      <div className="fields">
        {fieldNames(LICENCE_FIELDS).map((name, at) => (
          <TextField
            key={name}
            label={LICENCE_FIELDS[name].label}
            hint={hintOf(LICENCE_FIELDS[name])}
            autoFocus={at === 0}
            {...field(name)}
          />
        ))}
      </div>
      <SubmitActs label="Give the walk-in a number" main />
    </Form>
  );
  return { walkIn, busy, asks };
}

'use client';

import { useRouter } from 'next/navigation';
import { type ComponentProps, type ReactNode, useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { useTexts } from '#app/ui/form.tsx';
import { type Answered, ask } from '#app/ui/requests.ts';

/**
 * What is typed in a form that sets a passphrase, and its sending. Once the server has taken it, the fields are empty and
 * the page is read anew.
 */
export function usePassphraseForm<T extends Readonly<Record<string, string>>>(
  [path, station]: readonly [path: string, station: Parameters<typeof ask>[1]],
  empty: T,
) {
  const router = useRouter();
  const [busy, setBusy] = useState(false);
  const [answer, setAnswer] = useState<Answered<object>>();
  const errorOf = (field: string) => (answer && !answer.ok && answer.field === field ? answer.message : undefined);
  const { texts, field, reset } = useTexts(empty, errorOf);
  const send = async (body: object) => {
    setBusy(true);
    const given = await ask<object>(path, station, body);
    setBusy(false);
    setAnswer(given);
    if (!given.ok) return;
    reset();
    router.refresh();
  };
  return { send, busy, answer, texts, field };
}

interface NewPassphraseProps extends ComponentProps<typeof TextField> {
  /** What the tick says that shows it. */
  readonly show: string;
  /** The fields before it. */
  readonly children?: ReactNode;
}

/** The fields of a form with a new passphrase at their end, which can be looked at instead of typed twice. */
export function NewPassphrase({ show, children, ...field }: NewPassphraseProps) {
  const [shown, setShown] = useState(false);
  return (
    <>
      <div className="fields">
        {children}
        <TextField type={shown ? 'text' : 'password'} autoComplete="new-password" spellCheck={false} {...field} />
      </div>
      <CheckField label={show} checked={shown} onTick={setShown} />
    </>
  );
}

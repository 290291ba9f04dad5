'use client';

import { useEffect, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ask } from '#app/ui/requests.ts';
import { keepForSigningIn } from '#app/ui/typed/typed-kept.ts';
import type { Refusal } from '#lib/result/result.ts';

/** The stations at whose own page a worker begins who has no other. */
const BEGIN = ['intake', 'block', 'till', 'payout'];

/** By name and passphrase, or on a phone by a code that another device shows. */
export function SignInForm() {
  const [refusal, setRefusal] = useState<Refusal>();
  const [busy, setBusy] = useState(false);
  useEffect(keepForSigningIn, []);
  const errorOf = (field: string) => (refusal?.field === field ? refusal.message : undefined);
  const { texts, field } = useTexts({ name: '', passphrase: '', code: '' }, errorOf);
  const send = async (body: object) => {
    setBusy(true);
    const answer = await ask<{ readonly stations: readonly string[] }>('/api/sign-in', 'sign-in', {
      ...body,
      clock: Date.now(),
    });
    // A page of its own, so that nothing which was drawn for nobody is kept.
    if (answer.ok) {
      const [only = '', ...more] = answer.stations;
      return window.location.assign(more.length === 0 && BEGIN.includes(only) ? `/${only}` : '/');
    }
    setRefusal(answer);
    setBusy(false);
  };
  return (
    <>
      <Form className="sheet" onEntered={() => send({ name: texts.name, passphrase: texts.passphrase })}>
        <h1>Sign in</h1>
        {refusal && <Notice kind="stop" title={refusal.message} />}
        <div className="fields">
          <TextField label="Name" autoComplete="username" {...field('name')} />
          <TextField label="Passphrase" type="password" autoComplete="current-password" {...field('passphrase')} />
        </div>
        <SubmitActs label="Sign in" main disabled={busy} />
      </Form>
      <Form className="sheet" onEntered={() => send({ code: texts.code })}>
        <h2>With a code</h2>
        <p>The office makes it on another device; it lasts ten minutes.</p>
        <div className="fields">
          <TextField label="One-time code" autoCapitalize="characters" {...field('code')} />
        </div>
        <SubmitActs label="Use the code" disabled={busy} />
      </Form>
    </>
  );
}

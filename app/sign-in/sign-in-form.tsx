'use client';

import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Form } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { type Answered, ask } from '#app/ui/requests.ts';
import type { Refusal } from '#lib/result/result.ts';

/** Where each worker begins: the first of their stations. */
const BEGIN: Readonly<Record<string, string>> = {
  intake: '/intake',
  block: '/block',
  till: '/till',
  payout: '/payout',
};

interface Welcome {
  readonly stations: readonly string[];
}

/** By name and passphrase, or on a phone by a code that another device shows. */
export function SignInForm() {
  const [typed, setTyped] = useState({ name: '', passphrase: '', code: '' });
  const [refusal, setRefusal] = useState<Refusal>();
  const [busy, setBusy] = useState(false);
  const set = (name: keyof typeof typed) => (event: { target: { value: string } }) =>
    setTyped({ ...typed, [name]: event.target.value });
  const errorOf = (field: string) => (refusal?.field === field ? refusal.message : undefined);
  const send = async (body: object) => {
    setBusy(true);
    const answer: Answered<Welcome> = await ask<Welcome>('/api/sign-in', 'sign-in', body);
    // A page of its own, so that nothing which was drawn for nobody is kept.
    if (answer.ok) {
      const [only, ...more] = answer.stations;
      return window.location.assign(more.length === 0 ? (BEGIN[only ?? ''] ?? '/') : '/');
    }
    setRefusal(answer);
    setBusy(false);
  };
  return (
    <>
      <Form className="sheet" onEntered={() => send({ name: typed.name, passphrase: typed.passphrase })}>
        <h1>Sign in</h1>
        {refusal && <Notice kind="stop" title={refusal.message} />}
        <div className="fields">
          <TextField
            label="Name"
            autoComplete="username"
            error={errorOf('name')}
            value={typed.name}
            onChange={set('name')}
          />
          <TextField
            label="Passphrase"
            type="password"
            autoComplete="current-password"
            error={errorOf('passphrase')}
            value={typed.passphrase}
            onChange={set('passphrase')}
          />
        </div>
        <div className="acts">
          <button type="submit" className="act" disabled={busy}>
            Sign in
          </button>
        </div>
      </Form>
      <Form className="sheet" onEntered={() => send({ code: typed.code })}>
        <h2>With a code</h2>
        <p>The office makes it on another device; it lasts ten minutes.</p>
        <div className="fields">
          <TextField
            label="One-time code"
            error={errorOf('code')}
            autoCapitalize="characters"
            value={typed.code}
            onChange={set('code')}
          />
        </div>
        <div className="acts">
          <button type="submit" disabled={busy}>
            Use the code
          </button>
        </div>
      </Form>
    </>
  );
}

'use client';

import { type ReactNode, useState } from 'react';
import { NewPassphrase, usePassphraseForm } from '#app/(stations)/office/passphrase-form.tsx';
import { TextField } from '#app/ui/field.tsx';
import { Act, Form, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ask } from '#app/ui/requests.ts';
import type { Worker } from '#db/worker/queries.ts';
import { MakeCode } from './worker-forms.tsx';

/** Whoever is signed in, with the list of their devices: out of here or everywhere, a code for a phone of their own, another passphrase. */
export function OwnAccount({ worker, children }: { readonly worker: Worker; readonly children: ReactNode }) {
  const [trouble, setTrouble] = useState('');
  const leave = async (body: object) => {
    const answer = await ask('/api/sign-out', 'sign-in', body);
    if (answer.ok) return window.location.assign('/sign-in');
    setTrouble(answer.message);
  };
  return (
    <section className="sheet">
      <h1>{worker.name}</h1>
      <p>Works at: {worker.stations.join(', ')}. Signed in on:</p>
      {children}
      {trouble && <Notice kind="stop" title={trouble} />}
      <div className="acts">
        <Act words="Sign out here" act={() => leave({})} main />
        <Act words="Sign out on all devices" act={() => leave({ allOf: worker.id })} />
      </div>
      <MakeCode workerId={worker.id} />
      <OwnPassphrase />
    </section>
  );
}

/** Another passphrase of one's own: the old one is asked for, the new one can be looked at instead of typed twice. */
function OwnPassphrase() {
  const { send, busy, answer, texts, field } = usePassphraseForm(['/api/sign-in/passphrase', 'sign-in'], {
    ...{ old: '', passphrase: '' },
  });
  return (
    <details className="acts">
      <summary>Change your passphrase</summary>
      <Form onEntered={() => send(texts)} aria-label="Change your passphrase">
        {answer?.ok && <Notice kind="done" title="Your passphrase is changed. Your other devices are signed out." />}
        {answer && !answer.ok && <Notice kind="stop" title={answer.message} />}
        <NewPassphrase
          label="The new one"
          hint="At least 10 characters; a few words are best."
          show="Show the new one"
          {...field('passphrase')}
        >
          <TextField
            label="The passphrase you have"
            type="password"
            autoComplete="current-password"
            {...field('old')}
          />
        </NewPassphrase>
        <SubmitActs label="Change the passphrase" main disabled={busy} />
      </Form>
    </details>
  );
}

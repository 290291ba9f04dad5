'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { ask, askOffice } from '#app/ui/ask.ts';
import { TextField } from '#app/ui/field.tsx';
import { Form } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { Station } from '#db/command.ts';
import type { Refusal } from '#lib/result.ts';
import { ALL_STATIONS, StationTicks } from './station-ticks.tsx';

/** Enters a worker. The first gets every station and is signed in at once: from then on the book is closed to others. */
export function NewWorker({ first }: { readonly first: boolean }) {
  const router = useRouter();
  const [typed, setTyped] = useState({ name: '', passphrase: '' });
  const [stations, setStations] = useState<readonly Station[]>(first ? ALL_STATIONS : []);
  const [refusal, setRefusal] = useState<Refusal>();
  const [busy, setBusy] = useState(false);
  const errorOf = (field: string) => (refusal?.field === field ? refusal.message : undefined);
  const enter = async () => {
    setBusy(true);
    const answer = await askOffice('worker.add', { ...typed, stations });
    if (answer.ok && first) {
      await ask('/api/sign-in', 'sign-in', typed);
      return window.location.assign('/');
    }
    setBusy(false);
    setRefusal(answer.ok ? undefined : answer);
    if (!answer.ok) return;
    setTyped({ name: '', passphrase: '' });
    setStations([]);
    router.refresh();
  };
  return (
    <Form className="sheet" onEntered={enter}>
      <h2>{first ? 'The first worker' : 'A further worker'}</h2>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <div className="fields">
        <TextField
          label="Name"
          hint="As the log will say it."
          error={errorOf('name')}
          value={typed.name}
          onChange={(event) => setTyped({ ...typed, name: event.target.value })}
        />
        <TextField
          label="Passphrase"
          hint="At least 10 characters; a few words are best."
          type="password"
          autoComplete="new-password"
          error={errorOf('passphrase')}
          value={typed.passphrase}
          onChange={(event) => setTyped({ ...typed, passphrase: event.target.value })}
        />
        <StationTicks ticked={stations} change={setStations} error={errorOf('stations')} />
      </div>
      <div className="acts">
        <button type="submit" className="act" disabled={busy}>
          {first ? 'Enter and sign in' : 'Enter the worker'}
        </button>
      </div>
    </Form>
  );
}

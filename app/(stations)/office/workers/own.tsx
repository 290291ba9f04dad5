'use client';

import { useState } from 'react';
import { ask } from '#app/ui/ask.ts';
import { Notice } from '#app/ui/notice.tsx';
import type { Worker } from '#db/queries/workers.ts';
import { MakeCode } from './make-code.tsx';
import { OwnPassphrase } from './own-passphrase.tsx';

interface OwnProps {
  readonly worker: Worker;
  readonly devices: number;
}

/** Whoever is signed in: out of here or everywhere, a code for a phone of their own, another passphrase. */
export function Own({ worker, devices }: OwnProps) {
  const [trouble, setTrouble] = useState('');
  const leave = async (body: object) => {
    const answer = await ask('/api/sign-out', 'sign-in', body);
    if (answer.ok) return window.location.assign('/sign-in');
    setTrouble(answer.message);
  };
  return (
    <section className="sheet">
      <h1>{worker.name}</h1>
      <p>
        Works at: {worker.stations.join(', ')}. Signed in on {devices} {devices === 1 ? 'device' : 'devices'}.
      </p>
      {trouble && <Notice kind="stop" title={trouble} />}
      <div className="acts">
        <button type="button" className="act" onClick={() => void leave({})}>
          Sign out here
        </button>
        <button type="button" onClick={() => void leave({ allOf: worker.id })}>
          Sign out on all devices
        </button>
      </div>
      <MakeCode workerId={worker.id} />
      <OwnPassphrase />
    </section>
  );
}

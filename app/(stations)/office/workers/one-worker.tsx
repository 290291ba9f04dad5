'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { type Answered, ask, askOffice } from '#app/ui/ask.ts';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { Worker } from '#db/queries/workers.ts';
import type { Refusal } from '#lib/result.ts';
import { MakeCode } from './make-code.tsx';
import { StationTicks } from './station-ticks.tsx';

interface OneWorkerProps {
  readonly worker: Worker;
  /** On how many devices they are signed in. */
  readonly devices: number;
}

/** One worker for the office: where they work, a code for a phone, another passphrase, out of all devices. */
export function OneWorker({ worker, devices }: OneWorkerProps) {
  const router = useRouter();
  const [stations, setStations] = useState(worker.stations);
  const [hasLeft, setHasLeft] = useState(worker.hasLeft);
  const [passphrase, setPassphrase] = useState('');
  const [refusal, setRefusal] = useState<Refusal>();
  const after = (answer: Answered<object>) => {
    setRefusal(answer.ok ? undefined : answer);
    if (answer.ok) router.refresh();
    return answer.ok;
  };
  const id = worker.id;
  const amend = async () => after(await askOffice('worker.amend', { workerId: id, stations, hasLeft }));
  const signOut = async () => after(await ask('/api/sign-out', 'sign-in', { allOf: id }));
  const renew = async () => {
    // The server signs out whoever knew the old passphrase.
    if (after(await askOffice('worker.passphrase', { workerId: id, passphrase }))) setPassphrase('');
  };
  return (
    <details>
      <summary>
        {worker.name}: {worker.hasLeft ? 'has left' : worker.stations.join(', ')}
        {devices > 0 && `, signed in on ${devices} ${devices === 1 ? 'device' : 'devices'}`}
      </summary>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <div className="fields">
        <StationTicks ticked={stations} change={setStations} />
        <CheckField label="Has left" checked={hasLeft} onChange={() => setHasLeft(!hasLeft)} />
        <TextField
          label={`Another passphrase for ${worker.name}`}
          type="password"
          autoComplete="new-password"
          value={passphrase}
          onChange={(event) => setPassphrase(event.target.value)}
        />
      </div>
      <div className="acts">
        <button type="button" className="act" onClick={() => void amend()}>
          Save the stations
        </button>
        <button type="button" disabled={passphrase === ''} onClick={() => void renew()}>
          Give this passphrase
        </button>
        <button type="button" onClick={() => void signOut()}>
          Sign {worker.name} out everywhere
        </button>
      </div>
      {!worker.hasLeft && <MakeCode workerId={id} />}
    </details>
  );
}

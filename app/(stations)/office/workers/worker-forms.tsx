'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Act, Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { type Answered, ask, askOffice } from '#app/ui/requests.ts';
import type { Station } from '#db/book/command.ts';
import type { Worker } from '#db/worker/queries.ts';
import type { Refusal } from '#lib/result/result.ts';

/** The stations in the words of the screens; in the order of the masthead. */
const NAMES: Readonly<Record<Station, string>> = {
  intake: 'Intake',
  block: 'Block',
  till: 'Till',
  payout: 'Payout',
  office: 'Office',
};

const ALL_STATIONS = Object.keys(NAMES) as Station[];

/** Enters a worker. The first gets every station and is signed in at once: from then on the book is closed to others. */
export function NewWorker({ first }: { readonly first: boolean }) {
  const router = useRouter();
  const [stations, setStations] = useState<readonly Station[]>(first ? ALL_STATIONS : []);
  const [refusal, setRefusal] = useState<Refusal>();
  const [busy, setBusy] = useState(false);
  const errorOf = (field: string) => (refusal?.field === field ? refusal.message : undefined);
  const { texts, field, reset } = useTexts({ name: '', passphrase: '' }, errorOf);
  const enter = async () => {
    setBusy(true);
    const answer = await askOffice('worker.add', { ...texts, stations });
    if (answer.ok && first) {
      await ask('/api/sign-in', 'sign-in', texts);
      return window.location.assign('/');
    }
    setBusy(false);
    setRefusal(answer.ok ? undefined : answer);
    if (!answer.ok) return;
    reset();
    setStations([]);
    router.refresh();
  };
  return (
    <Form className="sheet" onEntered={enter}>
      <h2>{first ? 'The first worker' : 'A further worker'}</h2>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <div className="fields">
        <TextField label="Name" hint="As the log will say it." {...field('name')} />
        <TextField
          label="Passphrase"
          hint="At least 10 characters; a few words are best."
          type="password"
          autoComplete="new-password"
          {...field('passphrase')}
        />
        <StationTicks ticked={stations} change={setStations} error={errorOf('stations')} />
      </div>
      <SubmitActs label={first ? 'Enter and sign in' : 'Enter the worker'} main disabled={busy} />
    </Form>
  );
}

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
        <CheckField label="Has left" checked={hasLeft} onTick={setHasLeft} />
        <TextField
          label={`Another passphrase for ${worker.name}`}
          type="password"
          autoComplete="new-password"
          value={passphrase}
          onText={setPassphrase}
        />
      </div>
      <div className="acts">
        <Act words="Save the stations" act={amend} main />
        <Act words="Give this passphrase" act={renew} disabled={passphrase === ''} />
        <Act words={`Sign ${worker.name} out everywhere`} act={signOut} />
      </div>
      {!worker.hasLeft && <MakeCode workerId={id} />}
    </details>
  );
}

/** Makes a one-time code, to be typed on the device that is to be signed in. */
export function MakeCode({ workerId }: { readonly workerId: number }) {
  const [said, setSaid] = useState('');
  const make = async () => {
    const answer = await ask<{ readonly code: string; readonly minutes: number }>('/api/sign-in/code', 'sign-in', {
      workerId,
    });
    setSaid(answer.ok ? `${answer.code} (good once, for ${answer.minutes} minutes)` : answer.message);
  };
  return (
    <div className="acts">
      <Act words="Make a code for a phone" act={make} />
      <output>{said}</output>
    </div>
  );
}

interface StationTicksProps {
  readonly ticked: readonly Station[];
  readonly change: (stations: Station[]) => void;
  readonly error?: string | undefined;
}

/** At which stations somebody may work. */
function StationTicks({ ticked, change, error }: StationTicksProps) {
  const toggled = (station: Station) =>
    ALL_STATIONS.filter((one) => (one === station ? !ticked.includes(one) : ticked.includes(one)));
  return (
    <fieldset className="field wide" data-wrong={error ? '' : undefined}>
      <legend>Works at</legend>
      {error && <span className="field-error">{error}</span>}
      <div className="ticks">
        {ALL_STATIONS.map((station) => (
          <CheckField
            key={station}
            label={NAMES[station]}
            checked={ticked.includes(station)}
            onChange={() => change(toggled(station))}
          />
        ))}
      </div>
    </fieldset>
  );
}

'use client';

import Link from 'next/link';
import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { Unbroken } from '#app/ui/unbroken.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { FoundPerson } from '#db/queries/people.ts';
import { MemberCode } from './member-code.tsx';

/** One person: their file, their lines of the log, and the removal with its reason. */
export function PersonCard({ person: { personId, name, place, phone } }: { readonly person: FoundPerson }) {
  const { give, busy, refusal, errorOf } = useGive('office');
  const [reason, setReason] = useState('');
  const [done, setDone] = useState(false);
  const remove = async () => {
    const input = { personId, reason };
    const reply = await give('person.forget', input, `Contact data of ${name}`);
    if (reply.ok) setDone(true);
  };
  return (
    <section className="kept-person" aria-label={name}>
      <h2>{name}</h2>
      <p>
        <Unbroken>{[place, phone].filter(Boolean).join(', ') || 'No address and no phone.'}</Unbroken>
      </p>
      <p className="acts">
        <a href={`/api/office/person?person=${personId}`} download>
          Everything as JSON
        </a>
        <Link href={`/office/log?person=${personId}`}>In the log</Link>
      </p>
      <MemberCode personId={personId} name={name} />
      {refusal && refusal.field !== 'reason' && <Notice kind="stop" title={refusal.message} />}
      {done && <Notice kind="done" title="The contact data is removed. Older backups still hold it." />}
      <form
        className="removal"
        onSubmit={(event) => {
          event.preventDefault();
          void remove();
        }}
      >
        <TextField
          label={`Why ${name} is removed`}
          value={reason}
          error={errorOf('reason')}
          onChange={(event) => setReason(event.target.value)}
        />
        <p className="acts">
          <button type="submit" disabled={busy}>
            Remove contact data
          </button>
        </p>
      </form>
    </section>
  );
}

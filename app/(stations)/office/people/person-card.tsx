'use client';

import Link from 'next/link';
import { useState } from 'react';
import { AskOne } from '#app/(stations)/give-forms.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ask } from '#app/ui/requests.ts';
import { Unbroken } from '#app/ui/text.tsx';
import type { FoundPerson } from '#db/person/queries.ts';

/** One person: their file, their lines of the log, and the removal with its reason. */
export function PersonCard({ person: { personId, name, place, phone } }: { readonly person: FoundPerson }) {
  const [done, setDone] = useState(false);
  return (
    <section className="person-card" aria-label={name}>
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
      {done && <Notice kind="done" title="The contact data is removed. Older backups still hold it." />}
      <AskOne
        className="removal"
        station="office"
        command="person.forget"
        inputOf={(reason) => ({ personId, reason })}
        asks={{ label: `Why ${name} is removed` }}
        act="Remove contact data"
        entry={`Contact data of ${name}`}
        onDone={() => setDone(true)}
      />
    </section>
  );
}

const GOOD_FOR = [
  { minutes: 15, says: 'for a quarter of an hour' },
  { minutes: 1440, says: 'for a day' },
] as const;

/** A code by which somebody sees once what their own goods brought; it is shown here and nowhere again. */
function MemberCode({ personId, name }: { readonly personId: number; readonly name: string }) {
  const [said, setSaid] = useState<{ readonly ok: boolean; readonly words: string }>();
  const [busy, setBusy] = useState(false);
  const make = async (minutes: number, says: string) => {
    setBusy(true);
    const answer = await ask<{ readonly code: string }>('/api/office/member-code', 'office', { personId, minutes });
    const words = answer.ok
      ? `${answer.code}: good once, ${says}, at /prices/own. It is not shown again.`
      : answer.message;
    setSaid({ ok: answer.ok, words });
    setBusy(false);
  };
  return (
    <>
      <h3 className="code-head">A code for their own prices</h3>
      <p className="acts">
        {GOOD_FOR.map(({ minutes, says }) => (
          <button key={minutes} type="button" disabled={busy} onClick={() => void make(minutes, says)}>
            <span className="visually-hidden">Code for {name}’s own prices, </span>
            {says}
          </button>
        ))}
      </p>
      {said && <Notice kind={said.ok ? 'done' : 'stop'} title={said.words} />}
    </>
  );
}

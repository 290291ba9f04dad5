'use client';

import { useState } from 'react';
import { ask } from '#app/ui/ask.ts';
import { Notice } from '#app/ui/notice.tsx';

const GOOD_FOR = [
  { minutes: 15, says: 'for a quarter of an hour' },
  { minutes: 1440, says: 'for a day' },
] as const;

interface Said {
  readonly ok: boolean;
  readonly words: string;
}

/** A code by which somebody sees once what their own goods brought; it is shown here and nowhere again. */
export function MemberCode({ personId, name }: { readonly personId: number; readonly name: string }) {
  const [said, setSaid] = useState<Said>();
  const [busy, setBusy] = useState(false);
  const make = async (minutes: number, says: string) => {
    setBusy(true);
    setSaid(await askForCode(personId, minutes, says));
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

async function askForCode(personId: number, minutes: number, says: string): Promise<Said> {
  const answer = await ask<{ readonly code: string }>('/api/office/member-code', 'office', { personId, minutes });
  if (!answer.ok) return { ok: false, words: answer.message };
  return { ok: true, words: `${answer.code}: good once, ${says}, at /prices/own. It is not shown again.` };
}

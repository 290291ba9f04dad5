'use client';

import { useState } from 'react';
import { AskedFirst } from '#app/(stations)/use-payment.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { LastBuyers } from '#db/buyer/accounts.ts';

/** Gives the buyers of the last sale their numbers again, in one act. */
export function CarryBuyers({ saleId, lastYear }: { readonly saleId: number; readonly lastYear: LastBuyers | null }) {
  const [done, setDone] = useState<string>();
  // As many as there were when it was asked: an answer is to what was read.
  const [asked, setAsked] = useState<number>();
  const { give, busy, refusal, clear } = useGive('till');
  const ask = (count: number) => {
    clear();
    setAsked(count);
  };
  const carry = async (seen: number) => {
    setAsked(undefined);
    const reply = await give('buyers.carry', { saleId, seen }, 'Last year’s buyers');
    if (reply.ok) setDone(saidOf(reply.value));
  };
  if (!lastYear && !done) return null;
  return (
    <>
      <h2>Last year’s buyers</h2>
      {done && <Notice kind="done" title={done} />}
      {refusal && <Notice kind="stop" title={refusal.message} />}
      {lastYear && (
        <>
          <p className="small">
            From {lastYear.from}, under the numbers they had. Nobody is cleared by it: look at licence and exemption
            first.
          </p>
          {asked !== undefined ? (
            <AskedFirst
              yes={asked === 1 ? 'Yes, register 1 buyer' : `Yes, register ${asked} buyers`}
              busy={busy}
              act={() => void carry(asked)}
              leave={() => setAsked(undefined)}
            >
              {asked === 1
                ? 'Register 1 buyer under the number they had?'
                : `Register ${asked} buyers under the numbers they had?`}
            </AskedFirst>
          ) : (
            <button type="button" disabled={busy} onClick={() => ask(lastYear.count)}>
              {lastYear.count === 1 ? 'Register 1 buyer again' : `Register ${lastYear.count} buyers again`}
            </button>
          )}
        </>
      )}
    </>
  );
}

function saidOf({ registered, numberTaken }: { registered: number[]; numberTaken: number[] }): string {
  const who = registered.length === 1 ? '1 buyer has' : `${registered.length} buyers have`;
  const taken = numberTaken.length === 0 ? '' : ` Their numbers are somebody else’s by now: ${numberTaken.join(', ')}.`;
  return `${who} their number again, not cleared yet.${taken}`;
}

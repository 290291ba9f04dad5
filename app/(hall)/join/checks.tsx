'use client';

import { useCallback, useEffect, useState } from 'react';
import { Act } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { clockOff } from '#lib/network/clock.ts';

const ANSWER_WITHIN_MS = 8000;

/** Asks where no sign-in is needed, on this line or the encrypted one; gives the server's time. Rejects without an answer. */
async function timeAt(origin: string): Promise<number> {
  const answer = await fetch(`${origin}/api/join`, {
    cache: 'no-store',
    signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
  });
  return ((await answer.json()) as { now: number }).now;
}

interface ClockCheckProps {
  /** Says nothing where the clock is right, or nobody answers. */
  readonly quiet?: boolean;
}

/** Whether the clock of this device is near the server's. */
export function ClockCheck({ quiet = false }: ClockCheckProps) {
  const [off, setOff] = useState<string>();
  useEffect(() => {
    timeAt('')
      .then((now) => setOff(clockOff(Date.now(), now)))
      .catch(() => setOff(quiet ? '' : 'The server does not answer: is this device on the Wi-Fi of the hall?'));
  }, [quiet]);
  if (quiet && !off) return null;
  if (off === undefined) return <p>Comparing the clocks.</p>;
  return off === '' ? <p>The clock of this device is right.</p> : <Notice kind="stop" title={off} />;
}

interface LineCheckProps {
  /** `https://192.168.1.10:3443`; empty where there is no encrypted line. */
  readonly secure: string;
  /** What the laptop itself knows to be wrong with its certificate, in a sentence; empty where nothing is. */
  readonly amiss: string;
  /** From when until when the certificate is good, in milliseconds since 1970. */
  readonly good: readonly [from: number, to: number];
}

const BY_CLOCK = 'This device refuses the certificate because of its clock.';
const NOT_YET = 'This device does not trust the laptop yet.';

/** Whether this browser takes the certificate of the encrypted line. */
export function LineCheck({ secure, amiss, good: [from, to] }: LineCheckProps) {
  const [found, setFound] = useState<'trusted' | 'not yet'>();
  const look = useCallback(async () => {
    setFound(
      await timeAt(secure).then(
        () => 'trusted' as const,
        () => 'not yet' as const,
      ),
    );
  }, [secure]);
  useEffect(() => {
    if (secure !== '') void look();
  }, [secure, look]);
  if (secure === '') return <p>There is no encrypted line yet.</p>;
  return (
    <>
      {found === 'trusted' ? (
        <Notice kind="done" title="This device trusts the laptop.">
          <p>
            <a className="button act" href={`${secure}/sign-in`}>
              Go to sign in
            </a>
          </p>
        </Notice>
      ) : (
        found && <NotTrusted why={amiss || (Date.now() < from || Date.now() > to ? BY_CLOCK : NOT_YET)} />
      )}
      <Act words="Test the encrypted line" act={look} />
    </>
  );
}

const TO_DO: Readonly<Record<string, string>> = {
  [BY_CLOCK]: 'Set it to the time of the hall, then reload this page.',
  [NOT_YET]: 'Do the steps for this device above. If you did, close the browser and open this page again.',
};

/** Why the encrypted line did not answer, as far as this page knows. */
function NotTrusted({ why }: { readonly why: string }) {
  return (
    <Notice kind="wait" title={why}>
      {TO_DO[why] && <p>{TO_DO[why]}</p>}
    </Notice>
  );
}

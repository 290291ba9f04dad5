'use client';

import { useState } from 'react';
import { ask } from '#app/ui/ask.ts';

interface Made {
  readonly code: string;
  readonly minutes: number;
}

/** Makes a one-time code, to be typed on the device that is to be signed in. */
export function MakeCode({ workerId }: { readonly workerId: number }) {
  const [said, setSaid] = useState('');
  const make = async () => {
    const answer = await ask<Made>('/api/sign-in/code', 'sign-in', { workerId });
    setSaid(answer.ok ? `${answer.code} (good once, for ${answer.minutes} minutes)` : answer.message);
  };
  return (
    <div className="acts">
      <button type="button" onClick={() => void make()}>
        Make a code for a phone
      </button>
      <output>{said}</output>
    </div>
  );
}

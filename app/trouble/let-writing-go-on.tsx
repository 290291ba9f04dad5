'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import { sendOffice } from '#app/ui/requests.ts';

/** A person says that it is mended, and the laptop tries before it believes them. */
export function LetWritingGoOn() {
  const router = useRouter();
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const go = async () => {
    setBusy(true);
    const answer = await sendOffice('writing');
    setBusy(false);
    setSaid(answer.words);
    router.refresh();
  };
  return (
    <>
      {said !== '' && <Notice kind="wait" title={said} />}
      <p className="acts">
        <button type="button" className="act" disabled={busy} onClick={() => void go()}>
          Let writing go on
        </button>
      </p>
    </>
  );
}

'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { Act } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { type OfficeAnswer, sendOffice } from '#app/ui/requests.ts';

interface ActButtonProps {
  readonly act: 'backup' | 'verify';
  /** What is said while it works. */
  readonly says: string;
  readonly children: string;
}

/** One press, then what came of it in a sentence. */
export function ActButton({ act, says, children }: ActButtonProps) {
  const router = useRouter();
  const [busy, setBusy] = useState(false);
  const [answer, setAnswer] = useState<OfficeAnswer>();
  const press = async () => {
    setBusy(true);
    setAnswer(await sendOffice(act));
    setBusy(false);
    router.refresh();
  };
  return (
    <>
      <p className="acts">
        <Act words={children} act={press} main disabled={busy} />
      </p>
      {busy && <Notice kind="plain" title={says} />}
      {!busy && answer && <Notice kind={answer.ok ? 'done' : 'stop'} title={answer.words} />}
    </>
  );
}

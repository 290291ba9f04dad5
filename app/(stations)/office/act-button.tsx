'use client';

import { useRouter } from 'next/navigation';
import { type ReactNode, useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import { type OfficeAnswer, sendOffice } from '#app/ui/requests.ts';

interface ActButtonProps {
  readonly act: 'backup' | 'verify';
  /** What is said while it works. */
  readonly says: string;
  readonly children: ReactNode;
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
        <button type="button" className="act" disabled={busy} onClick={() => void press()}>
          {children}
        </button>
      </p>
      {busy && <Notice kind="plain" title={says} />}
      {!busy && answer && <Notice kind={answer.ok ? 'done' : 'stop'} title={answer.words} />}
    </>
  );
}

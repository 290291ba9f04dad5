'use client';

import { useEffect, useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import { noteLeft, noteTyping, putBack } from './typed-kept.ts';

/** Keeps what is half typed on a page over a sign-in of the same worker, and says so when it is back. */
export function KeepTyped({ worker }: { readonly worker: string }) {
  const [rest, setRest] = useState<Awaited<ReturnType<typeof putBack>>>();
  useEffect(() => {
    if (!worker) return;
    const leave = () => noteLeft(worker);
    document.addEventListener('input', noteTyping);
    addEventListener('pagehide', leave);
    void putBack(worker).then(setRest);
    return () => {
      document.removeEventListener('input', noteTyping);
      removeEventListener('pagehide', leave);
    };
  }, [worker]);
  if (!rest) return null;
  if (rest.length === 0) return <Notice kind="done" title="What you had typed before you signed in is back." />;
  return (
    <Notice kind="wait" title="You had typed this before you signed in, and it is not saved:">
      <ul>
        {rest.map(([field, text]) => (
          <li key={field}>
            {field}: {text}
          </li>
        ))}
      </ul>
    </Notice>
  );
}

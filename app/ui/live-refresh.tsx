'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { Notice } from './notice.tsx';
import { keepForSigningIn, noteLeft } from './typed/typed-kept.ts';
import { type Heard, watchLive } from './watch-live.ts';

interface LiveRefreshProps extends Heard {
  /** For whom the page was drawn; empty where nobody is signed in. */
  readonly worker: string;
}

/**
 * Has the page read its figures anew whenever the log stands elsewhere than where they were drawn, or is stopped. Where its
 * worker is not signed in any more the page stays as it is: reading anew would lead away from what is half typed.
 */
export function LiveRefresh({ line, stopped, worker }: LiveRefreshProps) {
  const router = useRouter();
  const [isOut, setOut] = useState(false);
  const seen = useRef({ line, stopped });
  useEffect(() => {
    seen.current = { line, stopped };
  }, [line, stopped]);
  useEffect(
    () =>
      watchLive((heard) => {
        if (heard.line === seen.current.line && heard.stopped === seen.current.stopped) return;
        // Asked for once: where the page cannot be read now, the next word asks again.
        seen.current = heard;
        void whoIsHere(worker).then((now) => {
          setOut(now === '' && worker !== '');
          if (now === worker) router.refresh();
          // Another one has signed in: what was typed here is kept, and not shown.
          else if (now) {
            noteLeft(worker);
            keepForSigningIn();
            location.reload();
          }
        });
      }),
    [router, worker],
  );
  if (!isOut) return null;
  return (
    <Notice kind="stop" title="You are signed out. What you typed is kept here until you sign in again.">
      <a href="/sign-in">Sign in</a>
    </Notice>
  );
}

/** Who is signed in on this device; the one the page was drawn for where nobody says. */
async function whoIsHere(drawnFor: string): Promise<string> {
  if (!drawnFor) return '';
  try {
    const answer = await fetch('/api/sign-in/here', { signal: AbortSignal.timeout(4000) });
    return answer.ok ? ((await answer.json()) as { readonly worker: string }).worker : drawnFor;
  } catch {
    return drawnFor;
  }
}

const never = () => () => {};

/** False until the page's script listens: what somebody typed before would be lost when it takes over. */
export function useListening(): boolean {
  return useSyncExternalStore(
    never,
    () => true,
    () => false,
  );
}

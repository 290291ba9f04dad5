'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useRef, useSyncExternalStore } from 'react';
import { type Heard, watchLive } from './watch-live.ts';

/** Has the page read its figures anew whenever the log stands elsewhere than where they were drawn, or is stopped. */
export function LiveRefresh({ line, stopped }: Heard) {
  const router = useRouter();
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
        router.refresh();
      }),
    [router],
  );
  return null;
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

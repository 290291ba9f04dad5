'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useRef } from 'react';
import { watchLive } from './live-line.ts';

/** Has the page read its figures anew whenever the log stands elsewhere than at the line they were drawn at. */
export function LiveRefresh({ line }: { readonly line: number }) {
  const router = useRouter();
  const seen = useRef(line);
  useEffect(() => {
    seen.current = line;
  }, [line]);
  useEffect(
    () =>
      watchLive(({ line: heard }) => {
        if (heard === seen.current) return;
        // Asked for once: where the page cannot be read now, the next line asks again.
        seen.current = heard;
        router.refresh();
      }),
    [router],
  );
  return null;
}

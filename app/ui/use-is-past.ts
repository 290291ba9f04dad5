'use client';

import { useEffect, useState } from 'react';

/** A browser's timer ends at some weeks; a closing time may be further away. */
const LONGEST_MS = 60_000;

/** Whether a moment is past by this machine's clock. Not yet while the page is first drawn, nor where there is none. */
export function useIsPast(at: string | null): boolean {
  const [past, setPast] = useState(false);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = () => {
      const left = at === null ? 0 : Date.parse(at) - Date.now();
      setPast(at !== null && left <= 0);
      if (left > 0) timer = setTimeout(look, Math.min(left, LONGEST_MS));
    };
    look();
    return () => clearTimeout(timer);
  }, [at]);
  return past;
}

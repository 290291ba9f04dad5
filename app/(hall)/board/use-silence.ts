'use client';

import { useEffect, useState } from 'react';

/** The server speaks every two seconds, so after five it is away. */
const SILENT_AFTER_MS = 5000;

/** Since when nothing was heard, in milliseconds; null while the server speaks. `heardAt` is null before its first word. */
export function useSilence(heardAt: number | null): number | null {
  const [silentSince, setSilentSince] = useState<number | null>(null);
  useEffect(() => {
    setSilentSince(null);
    const last = heardAt ?? Date.now();
    const waiting = setTimeout(() => setSilentSince(last), last + SILENT_AFTER_MS - Date.now());
    return () => clearTimeout(waiting);
  }, [heardAt]);
  return silentSince;
}

'use client';

import { useRouter } from 'next/navigation';
import { useEffect } from 'react';
import { watchLive } from './live-line.ts';

/** Has the page read its figures anew whenever the book's log grows. */
export function Live() {
  const router = useRouter();
  useEffect(() => {
    let seen: number | undefined;
    return watchLive(({ line }) => {
      if (seen !== undefined && line !== seen) router.refresh();
      seen = line;
    });
  }, [router]);
  return null;
}

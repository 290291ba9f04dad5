'use client';

import { useRouter } from 'next/navigation';
import { useEffect } from 'react';

/** Has the page read its figures anew whenever the book's log grows. */
export function Live() {
  const router = useRouter();
  useEffect(() => {
    let seen: number | undefined;
    const stream = new EventSource('/api/live');
    stream.onmessage = (event) => {
      const { line } = JSON.parse(event.data) as { line: number };
      if (seen !== undefined && line !== seen) router.refresh();
      seen = line;
    };
    return () => stream.close();
  }, [router]);
  return null;
}

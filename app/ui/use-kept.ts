'use client';

import { useEffect, useState } from 'react';

/**
 * A state that outlives a reload of this tab: what somebody typed is not lost when the page is. `forget` lets it go
 * once the book has it.
 */
export function useKept<T>(place: string, start: T): readonly [T, (next: T) => void, () => void] {
  const [value, setValue] = useState(start);
  useEffect(() => {
    const kept = sessionStorage.getItem(place);
    if (kept !== null) setValue(JSON.parse(kept) as T);
  }, [place]);
  const keep = (next: T) => {
    setValue(next);
    sessionStorage.setItem(place, JSON.stringify(next));
  };
  return [value, keep, () => sessionStorage.removeItem(place)];
}

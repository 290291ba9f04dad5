'use client';

import { useState } from 'react';

/** Which of some rows are ticked. */
export function useTicks(first: readonly number[]) {
  const [ticked, setTicked] = useState<ReadonlySet<number>>(() => new Set(first));
  const tick = (id: number, on: boolean) =>
    setTicked((now) => new Set(on ? [...now, id] : [...now].filter((one) => one !== id)));
  return { ticked, tick };
}

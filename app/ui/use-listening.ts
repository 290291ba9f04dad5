'use client';

import { useSyncExternalStore } from 'react';

const never = () => () => {};

/** False until the page's script listens: what somebody typed before would be lost when it takes over. */
export function useListening(): boolean {
  return useSyncExternalStore(
    never,
    () => true,
    () => false,
  );
}

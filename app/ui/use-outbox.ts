'use client';

import { useEffect, useState } from 'react';
import { EMPTY_OUTBOX, type OutboxState, watchOutbox } from './outbox.ts';

/** What this browser has entered and the book has not yet answered. */
export function useOutbox(): OutboxState {
  const [state, setState] = useState(EMPTY_OUTBOX);
  useEffect(() => watchOutbox(setState), []);
  return state;
}

'use client';

import { useSyncExternalStore } from 'react';

const NEVER = () => () => {};

/** A time of day on the reader's own clock; the server, whose clock may differ, leaves its place empty. */
export function LocalTime({ at }: { readonly at: string }) {
  const shown = useSyncExternalStore(
    NEVER,
    () => timeOfDay(Date.parse(at)),
    () => '',
  );
  return <time dateTime={at}>{shown}</time>;
}

/** `14:32` of a time in milliseconds; empty for no time. */
export function timeOfDay(ms: number): string {
  if (Number.isNaN(ms)) return '';
  return new Date(ms).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
}

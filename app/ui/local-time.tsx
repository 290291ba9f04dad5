'use client';

import { useSyncExternalStore } from 'react';

const NEVER = () => () => {};

/** A time of day on the reader's own clock. */
export function LocalTime({ at }: { readonly at: string }) {
  return <OwnClock at={at} words={timeOfDay} />;
}

/** A time as the reader's own clock has it; the server, whose clock may differ, leaves its place empty. `words` says a time in milliseconds. */
export function OwnClock({ at, words }: { readonly at: string; readonly words: (ms: number) => string }) {
  const shown = useSyncExternalStore(
    NEVER,
    () => words(Date.parse(at)),
    () => '',
  );
  return <time dateTime={at}>{shown}</time>;
}

/** `2:32 PM` or `14:32`, as the reader's clock has it, of a time in milliseconds; empty for no time. */
export function timeOfDay(ms: number): string {
  if (Number.isNaN(ms)) return '';
  return new Date(ms).toLocaleTimeString([], { hour: 'numeric', minute: '2-digit' });
}

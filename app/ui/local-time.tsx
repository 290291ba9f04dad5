'use client';

import { useSyncExternalStore } from 'react';

const NEVER = () => () => {};

/** A time of day on the reader's own clock. */
export function LocalTime({ at }: { readonly at: string }) {
  return <OwnClock at={at} words={timeOfDay} />;
}

/** A time as the reader's own clock has it; the server, whose clock may differ, leaves its place empty. `words` says a time in milliseconds. */
function OwnClock({ at, words }: { readonly at: string; readonly words: (ms: number) => string }) {
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

/** A moment on the reader's own clock: the time of day, with its day where that is not today. */
export function LocalMoment({ at }: { readonly at: string }) {
  return <OwnClock at={at} words={momentWords} />;
}

function momentWords(ms: number): string {
  const day = new Date(ms);
  if (day.toDateString() === new Date().toDateString()) return timeOfDay(ms);
  const dayWords = day.toLocaleDateString([], { weekday: 'long', month: 'long', day: 'numeric' });
  return `${dayWords}, ${timeOfDay(ms)}`;
}

'use client';

import { OwnClock, timeOfDay } from '#app/ui/local-time.tsx';

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

'use client';

import { useEffect, useSyncExternalStore } from 'react';
import { readStored, writeStored } from '#app/ui/storage.ts';

/** The newest of what was typed in this tab, by place: no copy in a component can be older than it. */
const places = new Map<string, object>();
const watchers = new Set<() => void>();

function watch(heard: () => void): () => void {
  watchers.add(heard);
  return () => watchers.delete(heard);
}

/** Read from the tab's storage once; what is typed from then on stands here first and goes there after. */
function newest<T extends object>(place: string, start: T): T {
  let value = places.get(place) as T | undefined;
  if (value === undefined) {
    const kept = readStored('sessionStorage', place);
    value = kept === null ? start : { ...start, ...(JSON.parse(kept) as Partial<T>) };
    places.set(place, value);
  }
  return value;
}

/**
 * A state that outlives a reload of this tab: what somebody typed is not lost when the page is. `keep` makes the next
 * state out of the newest one; `forget` lets it go once the book has it, and a form that opens later begins anew.
 */
export function useStored<T extends object>(
  place: string,
  start: T,
): readonly [T, (next: (now: T) => T) => void, () => void] {
  const value = useSyncExternalStore(
    watch,
    () => newest(place, start),
    () => start,
  );
  useEffect(() => () => void places.delete(place), [place]);
  const keep = (next: (now: T) => T) => {
    const kept = next(newest(place, start));
    places.set(place, kept);
    writeStored('sessionStorage', place, JSON.stringify(kept));
    for (const heard of watchers) heard();
  };
  return [value, keep, () => writeStored('sessionStorage', place, null)];
}

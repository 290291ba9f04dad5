'use client';

import { useEffect, useRef, useState } from 'react';
import { watchLive } from './watch-live.ts';

interface Viewed {
  readonly line: number;
}

export interface ViewAndSilence<T> {
  readonly view: T;
  /** When the server was last heard, in milliseconds; null before the first word. */
  readonly heardAt: number | null;
}

interface Held {
  /** The log line of the view in hand. */
  line: number;
  /** The newest log line heard of. */
  heard: number;
  reading: boolean;
}

/**
 * Keeps a view that the server drew first: reads it again from `address` whenever the log has grown past it.
 * `known` is a log line that the caller has heard of in another way, such as the answer to its own entry: the view
 * catches up with it also while the stream of events is cut.
 */
export function useView<T extends Viewed>(first: T, address: string, known = 0): ViewAndSilence<T> {
  const [view, setView] = useState(first);
  const [heardAt, setHeardAt] = useState<number | null>(null);
  const held = useRef<Held>({ line: first.line, heard: first.line, reading: false });
  useEffect(() => {
    hear<T>(held.current, known, { address, setView, setHeardAt });
  }, [address, known]);
  useEffect(
    () =>
      watchLive(({ line }) => {
        setHeardAt(Date.now());
        hear<T>(held.current, line, { address, setView, setHeardAt });
      }),
    [address],
  );
  return { view, heardAt };
}

interface Reader<T> {
  readonly address: string;
  readonly setView: (view: T) => void;
  readonly setHeardAt: (at: number) => void;
}

/** One read at a time, until the view has come as far as the newest line heard of. */
async function hear<T extends Viewed>(held: Held, line: number, { address, setView, setHeardAt }: Reader<T>) {
  held.heard = Math.max(held.heard, line);
  if (held.reading) return;
  held.reading = true;
  try {
    while (held.heard > held.line) {
      const answer = await fetch(address, { signal: AbortSignal.timeout(8000) });
      if (!answer.ok) return;
      const next = (await answer.json()) as T;
      held.line = Math.max(held.line, next.line);
      setView(next);
      setHeardAt(Date.now());
    }
  } catch {
    // The next word from the server has it read again.
  } finally {
    held.reading = false;
  }
}

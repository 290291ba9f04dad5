'use client';

import { useEffect, useRef, useState } from 'react';
import { watchLive } from './live-line.ts';

interface Viewed {
  readonly line: number;
}

export interface ViewAndSilence<T> {
  readonly view: T;
  /** When the server was last heard, in milliseconds; null before the first word. */
  readonly heardAt: number | null;
}

/** Keeps a view that the server drew first: reads it again from `address` whenever the log has grown past it. */
export function useView<T extends Viewed>(first: T, address: string): ViewAndSilence<T> {
  const [view, setView] = useState(first);
  const [heardAt, setHeardAt] = useState<number | null>(null);
  const held = useRef({ line: first.line, heard: first.line, reading: false });
  useEffect(() => {
    const read = async () => {
      const at = held.current;
      if (at.reading) return;
      at.reading = true;
      try {
        while (at.heard > at.line) {
          const answer = await fetch(address, { signal: AbortSignal.timeout(8000) });
          if (!answer.ok) return;
          const next = (await answer.json()) as T;
          at.line = Math.max(at.line, next.line);
          setView(next);
          setHeardAt(Date.now());
        }
      } catch {
        // The next word from the server has it read again.
      } finally {
        at.reading = false;
      }
    };
    return watchLive(({ line }) => {
      setHeardAt(Date.now());
      held.current.heard = Math.max(held.current.heard, line);
      void read();
    });
  }, [address]);
  return { view, heardAt };
}

'use client';

import { useCallback, useEffect, useRef, useState } from 'react';
import { watchLive } from './watch-live.ts';

/**
 * Keeps a view that the server drew first: reads it again from `address` whenever the log has grown past it.
 * `known` is a log line that the caller has heard of in another way, such as the answer to its own entry: the view
 * catches up with it also while the stream of events is cut. `heardAt` is when the server was last heard, in
 * milliseconds; null before the first word.
 */
export function useView<T extends { readonly line: number }>(first: T, address: string, known = 0) {
  const [view, setView] = useState(first);
  const [heardAt, setHeardAt] = useState<number | null>(null);
  // The log line of the view in hand, and the newest heard of.
  const held = useRef({ line: first.line, heard: first.line, reading: false }).current;
  /** One read at a time, until the view has come as far as the newest line heard of. */
  const hear = useCallback(
    async (line: number) => {
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
    },
    [address, held],
  );
  useEffect(() => void hear(known), [hear, known]);
  useEffect(
    () =>
      watchLive(({ line }) => {
        setHeardAt(Date.now());
        void hear(line);
      }),
    [hear],
  );
  return { view, heardAt };
}

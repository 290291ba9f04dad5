'use client';

import { type ReactNode, useState } from 'react';
import type { PaperProgress } from '#app/api/papers/answer.ts';
import { Mark } from './marks.tsx';
import { Notice } from './notice.tsx';
import { drawKey } from './storage.ts';

interface PaperLinkProps {
  readonly href: string;
  /** The file name under which the paper is kept. */
  readonly name: string;
  readonly children: ReactNode;
}

const ASK_EVERY_MS = 400;

/** Fetches a paper and hands it to the browser, showing how far the drawing is. Without script it is a plain link. */
export function PaperLink({ href, name, children }: PaperLinkProps) {
  const [state, setState] = useState<'idle' | 'drawing' | 'failed'>('idle');
  const [progress, setProgress] = useState<PaperProgress | null>(null);
  const fetchPaper = async () => {
    setState('drawing');
    const watch = drawKey();
    const asking = setInterval(() => void askProgress(watch).then(setProgress), ASK_EVERY_MS);
    try {
      const response = await fetch(`${href}${href.includes('?') ? '&' : '?'}watch=${watch}`);
      if (!response.ok) throw new Error(await response.text());
      handOver(await response.blob(), name);
      setState('idle');
    } catch {
      setState('failed');
    } finally {
      clearInterval(asking);
      setProgress(null);
    }
  };
  return (
    <>
      <a
        className="button"
        href={href}
        onClick={(event) => {
          event.preventDefault();
          if (state !== 'drawing') void fetchPaper();
        }}
      >
        {children}
      </a>
      <span aria-live="polite">{state === 'drawing' && <Mark tone="wait">drawing the paper</Mark>}</span>
      {state === 'drawing' && progress && (
        <span className="drawing">
          <progress value={progress.done} max={progress.of} aria-label="Sheets drawn" /> {progress.done} of{' '}
          {progress.of}
        </span>
      )}
      {state === 'failed' && <Notice kind="stop" title="The paper could not be drawn. Try again in a moment." />}
    </>
  );
}

/** Null where nothing is known: then the bar waits for the next answer. */
async function askProgress(watch: string): Promise<PaperProgress | null> {
  try {
    const answer = await fetch(`/api/papers/progress?watch=${watch}`);
    return answer.ok ? ((await answer.json()) as PaperProgress | null) : null;
  } catch {
    return null;
  }
}

function handOver(paper: Blob, name: string): void {
  const address = URL.createObjectURL(paper);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

'use client';

import { type ReactNode, useState } from 'react';
import { Mark } from '#app/ui/mark.tsx';
import { Notice } from '#app/ui/notice.tsx';

interface PaperLinkProps {
  readonly href: string;
  /** The file name under which the paper is kept. */
  readonly name: string;
  readonly children: ReactNode;
}

/** Fetches a paper and hands it to the browser, saying so while it is drawn. Without script it is a plain link. */
export function PaperLink({ href, name, children }: PaperLinkProps) {
  const [state, setState] = useState<'idle' | 'drawing' | 'failed'>('idle');
  const fetchPaper = async () => {
    setState('drawing');
    try {
      const response = await fetch(href);
      if (!response.ok) throw new Error(await response.text());
      handOver(await response.blob(), name);
      setState('idle');
    } catch {
      setState('failed');
    }
  };
  return (
    <>
      <a
        className="button"
        href={href}
        onClick={(event) => {
          event.preventDefault();
          void fetchPaper();
        }}
      >
        {children}
      </a>
      <span aria-live="polite">{state === 'drawing' && <Mark tone="wait">drawing the paper</Mark>}</span>
      {state === 'failed' && <Notice kind="stop" title="The paper could not be drawn. Try again in a moment." />}
    </>
  );
}

function handOver(paper: Blob, name: string): void {
  const address = URL.createObjectURL(paper);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

'use client';

import { type ReactNode, useEffect, useRef } from 'react';

interface AskedFirstProps {
  /** What the act will do, in figures. */
  readonly children: ReactNode;
  readonly yes: string;
  readonly busy: boolean;
  readonly act: () => void;
  readonly leave: () => void;
}

/** The question before an act on many at once. It has the focus, as what was pressed is gone. */
export function AskedFirst({ children, yes, busy, act, leave }: AskedFirstProps) {
  const question = useRef<HTMLDivElement>(null);
  useEffect(() => question.current?.focus(), []);
  return (
    <div className="acts" role="alert" ref={question} tabIndex={-1}>
      {children}
      <button type="button" className="act" disabled={busy} onClick={act}>
        {yes}
      </button>
      <button type="button" disabled={busy} onClick={leave}>
        No, go back
      </button>
    </div>
  );
}

'use client';

import { type ReactNode, useEffect, useRef } from 'react';
import { takeBufferedKeys } from '#app/(stations)/block/key-buffer.ts';
import type { BlockContext } from '#app/(stations)/block/use-block.ts';
import { Mark } from '#app/ui/marks.tsx';
import type { LotCard } from '#db/lot/queries.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

/** What every box is given: the Block around it, and how it is left. */
export interface BoxContext {
  readonly context: BlockContext;
  readonly close: () => void;
}

interface BoxProps extends Pick<BoxContext, 'close'> {
  readonly label: string;
  readonly enter: () => void;
  /** What it waits for; what is typed meanwhile is kept for the lot that comes up then. */
  readonly waitsFor?: string | undefined;
  readonly children: ReactNode;
}

/** A small form in the place of price and buyer: Enter goes on, Escape goes back to the lot that is up. */
export function Box({ label, enter, close, waitsFor, children }: BoxProps) {
  const leave = () => {
    takeBufferedKeys();
    close();
  };
  return (
    <form
      className="call"
      noValidate
      aria-label={label}
      onSubmit={(event) => {
        event.preventDefault();
        enter();
      }}
      onKeyDown={({ key }) => key === 'Escape' && leave()}
    >
      <h2>{label}</h2>
      <div className="call-fields">{children}</div>
      {waitsFor && <Waits what={waitsFor} />}
      <div className="acts">
        <button type="submit" className="act">
          Save
        </button>
        <button type="button" onClick={leave}>
          <kbd>Esc</kbd> Leave it
        </button>
      </div>
    </form>
  );
}

/** A refusal, with what was typed before it was read: it was meant for a lot that did not come up. */
export function withUnsavedText(message: string, typed: string): string {
  return typed === '' ? message : `${message} Not taken down: ${typed}.`;
}

/** Said while a box waits for the server: what is typed then is held, and seen nowhere yet. */
export function Waits({ what }: { readonly what: string }) {
  return (
    <p role="status">
      <Mark tone="wait">{what}</Mark> What you type now is kept for the lot that comes up.
    </p>
  );
}

/** False once the box was left: what the server answers then is for nobody. */
export function useMounted(): { readonly current: boolean } {
  const wanted = useRef(true);
  useEffect(() => {
    wanted.current = true;
    return () => {
      wanted.current = false;
    };
  }, []);
  return wanted;
}

/** Asks the server for one lot of a sale: as it is called, what was taken down for it, and what that touches. */
export async function fetchLot(saleId: number, lotNo: string): Promise<Result<LotCard>> {
  try {
    const address = `/api/views/lot?sale=${saleId}&lot=${encodeURIComponent(lotNo)}`;
    const answer = await fetch(address, { signal: AbortSignal.timeout(8000) });
    const said = await answer.json();
    if (answer.ok) return accept(said as LotCard);
    // What became of a lot that was divided or joined is for the book to say.
    if (answer.status === 404) return refuse('unknown', said.detail, 'lotNo');
  } catch {
    // No answer is treated like an answer that says nothing.
  }
  return refuse('unknown', 'The server does not answer: try again.', 'lotNo');
}

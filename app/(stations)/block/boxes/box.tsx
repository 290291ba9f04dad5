import type { FormEvent, ReactNode } from 'react';
import { Mark } from '#app/ui/mark.tsx';
import { takeHeldKeys } from '../held-keys.ts';

interface BoxProps {
  readonly label: string;
  readonly enter: () => void;
  readonly close: () => void;
  /** What it waits for; what is typed meanwhile is kept for the lot that comes up then. */
  readonly waitsFor?: string | undefined;
  readonly children: ReactNode;
}

/** A small form in the place of price and buyer: Enter goes on, Escape goes back to the lot that is up. */
export function Box({ label, enter, close, waitsFor, children }: BoxProps) {
  const submit = (event: FormEvent) => {
    event.preventDefault();
    enter();
  };
  const leave = () => {
    takeHeldKeys();
    close();
  };
  return (
    <form
      className="call"
      noValidate
      aria-label={label}
      onSubmit={submit}
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
export function withTyped(message: string, typed: string): string {
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

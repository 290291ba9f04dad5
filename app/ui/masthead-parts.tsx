'use client';

import { type ReactNode, useEffect, useState } from 'react';
import { Mark } from './marks.tsx';
import { type Entry, type OutboxState, takeBack, watchOutbox, whatBecameOf } from './outbox.ts';
import type { Owner } from './outbox-held.ts';
import { writeStored } from './storage.ts';

interface SavedMarkProps {
  /** Who is signed in; empty while nobody is entered. */
  readonly worker: string;
  readonly book: string;
  /** A station whose page shows its own refused entries, with what was typed. */
  readonly except: string;
  /** What is said where this browser keeps nothing, drawn by the server. */
  readonly notKept: ReactNode;
  /** What is said beside why nothing is written. */
  readonly stopped: ReactNode;
}

/** Says whether everything that was entered in this browser is in the book. */
export function SavedMark({ worker, book, except, notKept, stopped }: SavedMarkProps) {
  const [state, setState] = useState<OutboxState>();
  useEffect(() => watchOutbox(setState, { worker, book }), [worker, book]);
  if (!state) return null;
  const { waiting, why, held } = state;
  const own = waiting - held.length;
  return (
    <div className="saved-mark" aria-live="polite">
      {waiting > 0 ? (
        <Mark tone="wait">
          {waiting} waiting{why === 'silent' && own > 0 ? ', no answer from the server yet' : ''}
        </Mark>
      ) : state.notSaved ? (
        <Mark tone="stop">Not saved</Mark>
      ) : (
        <Mark tone="done">Saved</Mark>
      )}
      {state.notKept && notKept}
      {own > 0 && why && why !== 'silent' && (
        <Alert title={why === 'signed out' ? '' : why}>
          {why === 'signed out' ? <a href="/sign-in">Sign in to send {entriesIn(own)}</a> : stopped}
        </Alert>
      )}
      {held.length > 0 && (
        <Alert title={heldWords(held, state.here)}>
          <a href="/waiting">See what waits</a>
        </Alert>
      )}
      {state.refused
        .filter(({ station }) => station !== except)
        .map((entry) => (
          <Refused key={entry.key} entry={entry} />
        ))}
    </div>
  );
}

function Alert({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <div className="notice" data-kind="stop" role="alert">
      <p>
        <strong>{title}</strong> {children}
      </p>
    </div>
  );
}

const entriesIn = (many: number) => `${many} ${many > 1 ? 'entries' : 'entry'}`;

/** For whom entries wait; the page of all that waits says it of each. */
function heldWords(held: readonly Entry[], here: Owner): string {
  const names = [...new Set(held.map(({ worker }) => worker))].join(' and ');
  const ofBook = held.every(({ book }) => book === here.book);
  return `${entriesIn(held.length)} typed${names && ` by ${names}`}, ${ofBook ? `waiting until ${names} signs in` : 'for another book: not sent to this one'}.`;
}

/** An entry whose form is gone: what was refused and why, until somebody lets it go. */
function Refused({ entry }: { readonly entry: Entry }) {
  return (
    <Alert title={whatBecameOf(entry)}>
      {entry.refusal?.message}{' '}
      <button type="button" onClick={() => entry.id !== undefined && void takeBack(entry.id)}>
        Discard it
      </button>
    </Alert>
  );
}

/** Chooses how the screen looks on this device, kept in the browser; the choices come drawn from the server. */
export function ThemeSwitch({ children }: { readonly children: ReactNode }) {
  const choose = (chosen: string) => {
    writeStored('localStorage', 'peltry-theme', chosen);
    if (!chosen) delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = chosen;
  };
  return (
    <label className="theme-switch small">
      Look{' '}
      <select className="theme-choice" ref={showTheme} onChange={({ target }) => choose(target.value)}>
        {children}
      </select>
    </label>
  );
}

/** What was chosen before stands in the page already. */
function showTheme(select: HTMLSelectElement | null): void {
  if (select) select.value = document.documentElement.dataset.theme ?? '';
}

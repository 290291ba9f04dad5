'use client';

import { type ReactNode, useEffect, useState } from 'react';
import { Mark } from './marks.tsx';
import { Notice } from './notice.tsx';
import { type Entry, type OutboxState, takeBack, watchOutbox, whatBecameOf } from './outbox.ts';
import type { Owner } from './outbox-held.ts';
import { writeStored } from './storage.ts';

interface SavedMarkProps {
  /** Who is signed in; empty while nobody is entered. */
  readonly owner: Owner;
  /** A station whose page shows its own refused entries, with what was typed. */
  readonly except: string;
  /** What is said where this browser keeps nothing, drawn by the server. */
  readonly notKept: ReactNode;
  /** What is said where the server does not answer, drawn by the server while it did. */
  readonly silence: ReactNode;
  /** What is said beside why nothing is written. */
  readonly stopped: ReactNode;
  /** The way to what waits for somebody else. */
  readonly toWaiting: ReactNode;
}

/** Says whether everything that was entered in this browser is in the book. */
export function SavedMark({ owner, except, notKept, silence, stopped, toWaiting }: SavedMarkProps) {
  const [state, setState] = useState<OutboxState>();
  useEffect(() => watchOutbox(setState, owner), [owner]);
  if (!state) return null;
  const { waiting, why, held } = state;
  // What no disk has yet does not count as waiting: whoever closes the lid now would lose it.
  const open = state.saving ? 'Saving…' : waiting > 0 && `${waiting} waiting`;
  const own = waiting - held.length;
  const shut = own > 0 && why;
  const silent = shut === 'silent';
  return (
    <div className="saved-mark" aria-live="polite">
      <Mark tone={open ? 'wait' : state.notSaved ? 'stop' : 'done'}>
        {open || (state.notSaved ? 'Not saved' : 'Saved')}
      </Mark>
      {silent && silence}
      {state.notKept && notKept}
      {shut && !silent && (
        <Notice kind="stop" title={shut}>
          {shut === 'Signed out.' ? <a href="/sign-in">Sign in to send {entriesIn(own)}</a> : stopped}
        </Notice>
      )}
      {held.length > 0 && (
        <Notice kind="stop" title={heldWords(held, state.here)}>
          {toWaiting}
        </Notice>
      )}
      {state.refused
        .filter((one) => one.station !== except)
        .map((entry) => (
          // Its form is gone: what was refused and why, until somebody lets it go.
          <Notice key={entry.key} kind="stop" title={`${whatBecameOf(entry)} ${entry.refusal?.message}`}>
            <button type="button" onClick={() => void takeBack(entry.id ?? 0)}>
              Discard it
            </button>
          </Notice>
        ))}
    </div>
  );
}

const entriesIn = (many: number) => `${many} ${many > 1 ? 'entries' : 'entry'}`;

/** For whom entries wait; the page of all that waits says it of each. */
function heldWords(held: readonly Entry[], here: Owner): string {
  const names = [...new Set(held.map(({ worker }) => worker))].join(' and ');
  const why = held.some(({ book }) => book && book !== here.book)
    ? 'for another book'
    : `waiting until ${names} signs in`;
  return `${entriesIn(held.length)} typed by ${names || 'somebody'}, ${why}.`;
}

/** Chooses how the screen looks on this device, kept in the browser; the choices come drawn from the server. */
export function ThemeSwitch({ children }: { readonly children: ReactNode }) {
  const choose = (chosen: string) => {
    writeStored('localStorage', 'peltry-theme', chosen);
    if (chosen) look().theme = chosen;
    else delete look().theme;
  };
  return (
    <select id="look" className="theme-choice" ref={showTheme} onChange={({ target }) => choose(target.value)}>
      {children}
    </select>
  );
}

const look = () => document.documentElement.dataset;

/** What was chosen before stands in the page already. */
function showTheme(select: HTMLSelectElement | null): void {
  if (select) select.value = look().theme ?? '';
}

'use client';

import { usePathname } from 'next/navigation';
import { useEffect, useState } from 'react';
import { Mark } from './marks.tsx';
import { type Entry, type OutboxState, takeBack, watchOutbox, whatBecameOf } from './outbox.ts';
import { readStored, writeStored } from './storage.ts';

/** The Block shows its own refused entries, with what was typed. */
const BLOCK = '/block';

/** Says whether everything that was entered in this browser is in the book. */
export function SavedMark() {
  const except = usePathname() === BLOCK ? 'block' : undefined;
  const [state, setState] = useState<OutboxState>();
  useEffect(() => watchOutbox(setState), []);
  if (!state) return null;
  return (
    <div className="saved-mark" aria-live="polite">
      {state.waiting > 0 ? (
        <Mark tone="wait">
          {state.waiting} waiting{state.cutOff && !state.stopped ? ', no answer from the server yet' : ''}
        </Mark>
      ) : state.notSaved ? (
        <Mark tone="stop">Not saved</Mark>
      ) : (
        <Mark tone="done">Saved</Mark>
      )}
      {state.notKept && (
        <div className="notice" data-kind="stop" role="alert">
          <p>
            <strong>This browser could not keep the entry.</strong> It is being sent directly: wait for Saved before the
            next one.
          </p>
        </div>
      )}
      {state.stopped && state.waiting > 0 && (
        <div className="notice" data-kind="stop" role="alert">
          <p>
            <strong>{state.stopped}</strong> What you entered waits here and goes in by itself.{' '}
            <a href="/trouble">What to do</a>
          </p>
        </div>
      )}
      {state.refused
        .filter(({ station }) => station !== except)
        .map((entry) => (
          <Refused key={entry.key} entry={entry} />
        ))}
    </div>
  );
}

/** An entry whose form is gone: what was refused and why, until somebody lets it go. */
function Refused({ entry }: { readonly entry: Entry }) {
  return (
    <div className="notice" data-kind="stop" role="alert">
      <p>
        <strong>{whatBecameOf(entry)}</strong> {entry.refusal?.message}
      </p>
      <button type="button" onClick={() => entry.id !== undefined && void takeBack(entry.id)}>
        Discard it
      </button>
    </div>
  );
}

const THEMES = [
  { value: '', label: 'As the device' },
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
  { value: 'sun', label: 'Sun' },
] as const;

/** Chooses how the screen looks on this device; kept in the browser. */
export function ThemeSwitch() {
  const [theme, setTheme] = useState('');
  useEffect(() => setTheme(readStored('localStorage', 'peltry-theme') ?? ''), []);
  const choose = (chosen: string) => {
    setTheme(chosen);
    writeStored('localStorage', 'peltry-theme', chosen);
    if (chosen === '') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = chosen;
  };
  return (
    <label className="theme-switch small">
      Look{' '}
      <select className="theme-choice" value={theme} onChange={(event) => choose(event.target.value)}>
        {THEMES.map(({ value, label }) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
    </label>
  );
}

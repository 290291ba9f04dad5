'use client';

import { useEffect, useRef, useState } from 'react';
import { type Entry, type OutboxState, takeBack, watchOutbox } from '#app/ui/outbox.ts';

/** Every entry that waits, with all that was typed: one that is not sent from here can be copied and let go. */
export function WaitingList({ epoch }: { readonly epoch: number }) {
  const [state, setState] = useState<OutboxState>();
  useEffect(() => watchOutbox(setState), []);
  if (!state) return null;
  if (state.waiting === 0) return <p>Nothing waits: all that was entered in this browser is in the book.</p>;
  return (
    <ul className="plain-list">
      {state.entries.map((entry) => (
        <li key={entry.key} className="sheet">
          <Waiting
            entry={entry}
            held={state.held.includes(entry)}
            otherBook={isOfAnother(entry, state)}
            before={isFromBefore(entry, epoch)}
          />
        </li>
      ))}
    </ul>
  );
}

const isOfAnother = ({ book }: Entry, { here }: OutboxState) => !!book && !!here.book && book !== here.book;

const isFromBefore = ({ page = '' }: Entry, epoch: number) =>
  Number.parseInt(page.split(':')[1] ?? `${epoch}`, 10) < epoch;

interface WaitingProps {
  readonly entry: Entry;
  readonly held: boolean;
  readonly otherBook: boolean;
  /** Typed on a page from before another laptop took over. */
  readonly before: boolean;
}

function Waiting({ entry, held, otherBook, before }: WaitingProps) {
  const text = useRef<HTMLTextAreaElement>(null);
  const [said, setSaid] = useState('');
  const [sure, setSure] = useState(false);
  const words = wordsOf(entry);
  const copy = () => {
    text.current?.select();
    // The newer way to the clipboard is missing on a plain-http host name.
    setSaid(document.execCommand('copy') ? 'Copied.' : 'Press Ctrl and C to copy what is marked.');
  };
  return (
    <>
      <h2>{entry.label}</h2>
      <p>
        {before && 'Typed before the book came to this laptop. The log says whether it is in the book already. '}
        {whyItWaits(entry, held, otherBook)} Typed at: {entry.station}.
      </p>
      <label>
        What was typed
        <textarea ref={text} readOnly rows={words.split('\n').length} value={words} />
      </label>
      <p className="acts">
        <button type="button" onClick={copy}>
          Copy {entry.label}
        </button>
        {held && (
          <button type="button" onClick={() => (sure && entry.id ? void takeBack(entry.id) : setSure(true))}>
            {sure ? `Yes, discard ${entry.label} for good` : `Discard ${entry.label}`}
          </button>
        )}
      </p>
      <p role="status">{said}</p>
    </>
  );
}

function whyItWaits({ worker }: Entry, held: boolean, otherBook: boolean): string {
  if (otherBook) return `Typed${worker ? ` by ${worker}` : ''} for another book: it is not sent to this one.`;
  return held ? `Typed by ${worker}: it is sent when ${worker} signs in here.` : 'It is sent when the server takes it.';
}

/** All that was typed, a line a field: what stands there can be typed again by hand. */
function wordsOf({ command, input }: Entry): string {
  const fields = Object.entries(input).filter(([, value]) => value !== null && value !== '');
  const lines = fields.map(([name, value]) => {
    const plain = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
    return `${plain}: ${typeof value === 'object' ? JSON.stringify(value) : value}`;
  });
  return [command, ...lines].join('\n');
}

'use client';

import { useEffect, useState } from 'react';
import { useView } from '#app/ui/use-view.ts';
import type { BoardResult, BoardView } from '#db/outcome/board-view.ts';
import { resultWords } from './result-words.ts';

/** The lot that is up and what the last one brought, read from the back of the hall. */
export function Board({ association, first }: { readonly association: string; readonly first: BoardView }) {
  const { view, heardAt } = useView(first, `/api/views/board?sale=${first.saleId}`);
  const silentSince = useSilence(heardAt);
  const [brought, ...before] = view.results;
  return (
    <main className="board" data-silent={silentSince === null ? undefined : ''}>
      <header>
        <p>
          <strong>{association}</strong> <span>{view.name}</span>
        </p>
        <p>{view.left === 1 ? '1 lot left' : `${view.left} lots left`}</p>
      </header>
      <h1 className="visually-hidden">Board</h1>
      <div className="board-large">
        <section aria-labelledby="board-up">
          <h2 id="board-up">{view.up ? 'Lot' : 'The sale'}</h2>
          <Up {...view} />
        </section>
        <section aria-labelledby="board-brought">
          <h2 id="board-brought">{brought ? `Lot ${brought.lotNo} brought` : 'No lot was called yet'}</h2>
          {brought && <Brought result={brought} />}
        </section>
      </div>
      <ol className="board-before" aria-label="The lots before">
        {before.map((result) => (
          <li key={result.lotNo}>
            <strong>Lot {result.lotNo}</strong>
            <span>{result.goods}</span>
            <span className="board-before-price">{resultWords(result)}</span>
          </li>
        ))}
      </ol>
      {silentSince !== null && (
        <p className="board-silence" role="status">
          No word from the server since {timeOfDay(silentSince, view.timeZone)}. What is shown is of that time.
        </p>
      )}
    </main>
  );
}

function Up({ up, selling, left, phase }: BoardView) {
  const none = phase || (selling && left === 0 ? 'Every lot was called.' : 'No lot is up.');
  if (!up) return <p className="board-words">{none}</p>;
  return (
    <>
      <p className="board-figure" data-figure="lot" data-long={up.lotNo.length > 4 ? '' : undefined}>
        {up.lotNo}
      </p>
      <p className="board-words">{up.goods}</p>
      <p className="board-words board-soft">{up.details}</p>
    </>
  );
}

function Brought({ result }: { readonly result: BoardResult }) {
  return (
    <>
      <p className="board-figure" data-figure="price" data-long={result.price.length > 6 ? '' : undefined}>
        {result.price === '' ? <span className="board-unsold">{resultWords(result)}</span> : result.price}
      </p>
      <p className="board-words">{result.price !== '' && `${result.standsFor}, buyer ${result.buyerNo}`}</p>
      <p className="board-words board-soft">{result.goods}</p>
    </>
  );
}

/** As `timeInWords` says it, whose file would be half of the Board's own code. */
const timeOfDay = (ms: number, timeZone: string) =>
  new Date(ms).toLocaleTimeString('en-US', { timeZone, hour: 'numeric', minute: '2-digit' });

/** The server speaks every two seconds, so after five it is away. */
const SILENT_AFTER_MS = 5000;

/** Since when nothing was heard, in milliseconds; null while the server speaks. `heardAt` is null before its first word. */
function useSilence(heardAt: number | null): number | null {
  const [silentSince, setSilentSince] = useState<number | null>(null);
  useEffect(() => {
    setSilentSince(null);
    const last = heardAt ?? Date.now();
    const waiting = setTimeout(() => setSilentSince(last), last + SILENT_AFTER_MS - Date.now());
    return () => clearTimeout(waiting);
  }, [heardAt]);
  return silentSince;
}

import type { Metadata } from 'next';
import { headers } from 'next/headers';
import Link from 'next/link';
import { bookOrNone } from '#app/request/book.ts';
import { lossFor } from '#app/server/seen-head.ts';
import { troubleNow } from '#app/server/state.ts';
import { LEFT_OUT } from '#db/follow/deposed.ts';
import { LetWritingGoOn } from './let-writing-go-on.tsx';

export const metadata: Metadata = { title: 'What is the matter' };

/** Stands without the book, because the book may be what is the matter. */
export default async function Page() {
  const book = await bookOrNone();
  const trouble = troubleNow() ?? (book && lossFor(book, await headers()));
  return (
    <main id="main" className="page">
      <section className="sheet" aria-labelledby="matter">
        <h1 id="matter">{trouble?.title ?? 'All is well.'}</h1>
        {!trouble && <p>The book can be read and written, and nothing waits to be put right here.</p>}
        {trouble && (
          <>
            <h2>What happened</h2>
            <p>{trouble.happened}</p>
            <h2>What is safe</h2>
            <p>{trouble.safe}</p>
            <h2>What to do</h2>
            {trouble.toDo.split('\n').map((line) => (
              <p key={line}>{line}</p>
            ))}
          </>
        )}
        {trouble?.kind === 'deposed' && (
          <p>
            <a href="/api/office/left-out" download>
              {LEFT_OUT}
            </a>{' '}
            (for the office)
          </p>
        )}
        {trouble && book && trouble.kind !== 'deposed' && <LetWritingGoOn />}
        <p className="acts">
          <Link className="button" href="/">
            {book ? 'Back to the sale' : 'Try again'}
          </Link>
          <a href="/help/day-of-sale#when-things-go-wrong">When things go wrong</a>
        </p>
      </section>
    </main>
  );
}

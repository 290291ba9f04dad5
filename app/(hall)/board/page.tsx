import './board.css';
import type { Metadata } from 'next';
import { hallContext, type SearchParams } from '#app/request/page-context.ts';
import { cachedRead } from '#app/server/read-cache.ts';
import { boardView, byPhase } from '#db/outcome/board-view.ts';
import { Board } from './board.tsx';

export const metadata: Metadata = { title: 'Board' };

const cachedBoard = cachedRead(boardView, byPhase);

/** For the wall: nothing to press, nothing to sign in to. */
export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await hallContext(searchParams);
  if (sale)
    return <Board association={association} first={cachedBoard(book, { sale, now: new Date().toISOString() })} />;
  return (
    <main className="board board-empty">
      <h1>{association}</h1>
      <p>There is no sale yet.</p>
    </main>
  );
}

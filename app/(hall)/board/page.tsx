import type { Metadata } from 'next';
import { madeReady } from '#app/made-ready.ts';
import { type Address, hallGround } from '#app/station.ts';
import { boardView } from '#db/queries/board-view.ts';
import { floorInPieces } from '#db/queries/floor.ts';
import { Board } from './board.tsx';
import './board.css';

export const metadata: Metadata = { title: 'Board' };

/** For the wall: nothing to press, nothing to sign in to. */
export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await hallGround(searchParams);
  if (sale) await madeReady(book, floorInPieces(book, sale));
  if (sale) return <Board association={association} first={boardView(book, sale)} />;
  return (
    <main className="board board-empty">
      <h1>{association}</h1>
      <p>There is no sale yet.</p>
    </main>
  );
}

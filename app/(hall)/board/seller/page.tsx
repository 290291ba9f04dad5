import type { Metadata } from 'next';
import { madeReady } from '#app/made-ready.ts';
import { type Address, hallGround } from '#app/station.ts';
import { Live } from '#app/ui/live.tsx';
import { floorInPieces } from '#db/queries/floor.ts';
import { sellerBoard } from '#db/queries/seller-board.ts';
import { HallMasthead } from '../../hall-masthead.tsx';
import { AskNumber } from './ask-number.tsx';
import { OwnLots } from './own-lots.tsx';

export const metadata: Metadata = { title: 'Follow a seller number' };

/** A seller's own lots on their phone, with nothing that the hall does not see anyway. */
export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale, word } = await hallGround(searchParams);
  if (sale) await madeReady(book, floorInPieces(book, sale));
  const typed = word('no') ?? '';
  const view = sale && /^[1-9]\d{0,4}$/.test(typed) ? sellerBoard(book, sale, Number.parseInt(typed, 10)) : undefined;
  return (
    <>
      <HallMasthead association={association} guide="board" />
      <main id="main" className="page page-narrow">
        <h1>Follow a seller number</h1>
        <p>The number stands on the tickets. What its lots bring then comes up here by itself.</p>
        {sale ? <AskNumber typed={typed} wrong={typed !== '' && !view} /> : <p>There is no sale yet.</p>}
        {view && (
          <section className="sheet" aria-label={`Seller ${view.sellerNo}`}>
            <Live />
            <h2>
              Seller {view.sellerNo}, {view.name}
            </h2>
            <p>
              Sold so far: <strong>{view.brought}</strong>, before commission and fees.
            </p>
            <OwnLots view={view} />
          </section>
        )}
      </main>
    </>
  );
}

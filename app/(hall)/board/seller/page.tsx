import type { Metadata } from 'next';
import { type Address, hallGround } from '#app/station.ts';
import { Live } from '#app/ui/live.tsx';
import { sellerBoard } from '#db/queries/board-view.ts';
import { sellingSale } from '#db/queries/sales.ts';
import { HallMasthead } from '../../hall-masthead.tsx';
import { AskNumber } from './ask-number.tsx';
import { NotNow } from './not-now.tsx';
import { OwnLots } from './own-lots.tsx';

export const metadata: Metadata = { title: 'Follow a seller number' };

/** A seller's lots on a phone while they are being sold, with nothing that the hall does not see anyway. */
export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, word } = await hallGround(searchParams);
  const sale = sellingSale(book, word('sale'));
  const typed = word('no') ?? '';
  const view = sale && /^[1-9]\d{0,4}$/.test(typed) ? sellerBoard(book, sale, Number.parseInt(typed, 10)) : undefined;
  return (
    <>
      <HallMasthead association={association} guide="board" />
      <main id="main" className="page page-narrow">
        <h1>Follow a seller number</h1>
        {sale && <p>The number stands on the tickets. What its lots bring then comes up here by itself.</p>}
        {sale ? <AskNumber typed={typed} wrong={typed !== '' && !view} /> : <NotNow />}
        {view && (
          <section className="sheet" aria-label={`Seller ${view.sellerNo}`}>
            <Live />
            <h2>
              Seller {view.sellerNo}, {view.name}
            </h2>
            <OwnLots view={view} />
          </section>
        )}
      </main>
    </>
  );
}

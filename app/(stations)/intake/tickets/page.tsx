import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { type Address, stationGround } from '#app/station.ts';
import { Masthead } from '#app/ui/masthead.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { numbersOfLots } from '#db/queries/numbers-of-lots.ts';
import { lotsAskedFor } from '#lib/paper/ticket-request.ts';
import { BackLink } from './back-link.tsx';
import { TicketForm } from './ticket-form.tsx';
import '../intake.css';

export const metadata: Metadata = { title: 'Tickets' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale, word } = await stationGround(searchParams, ['intake']);
  if (!sale) notFound();
  const whose = { seller: word('seller') ?? '', lot: word('lot') ?? '' };
  const lots = lotsAskedFor(numbersOfLots(book, sale.id), { saleId: sale.id, ...whose });
  // A number that leads nowhere is no place to go back to.
  const lotNo = lots.ok && whose.lot !== '' ? (lots.value[0]?.lotNo ?? '') : '';
  const found = { seller: lots.ok ? whose.seller : '', lot: lotNo };
  return (
    <>
      <Masthead association={association} sale={sale} here="/intake" />
      <main id="main" className="page">
        <section className="sheet">
          <h1>Lot tickets</h1>
          {lots.ok ? (
            <TicketForm saleId={sale.id} {...whose} {...rangeOf(lots.value)} />
          ) : (
            <Notice kind="plain" title={lots.message} />
          )}
          <div className="acts">
            <BackLink saleId={sale.id} {...found} />
          </div>
        </section>
      </main>
    </>
  );
}

/** A browser is not sent a hundred thousand numbers to say two of them. */
function rangeOf(lots: readonly { readonly lotNo: string }[]) {
  return { many: lots.length, first: lots[0]?.lotNo ?? '', last: lots.at(-1)?.lotNo ?? '' };
}

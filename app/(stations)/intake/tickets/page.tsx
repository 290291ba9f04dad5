import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { type Address, stationGround } from '#app/station.ts';
import { Masthead } from '#app/ui/masthead.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ticketsAsked } from './asked.ts';
import { BackLink } from './back-link.tsx';
import { TicketForm } from './ticket-form.tsx';
import '../intake.css';

export const metadata: Metadata = { title: 'Tickets' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale, word } = await stationGround(searchParams, ['intake']);
  if (!sale) notFound();
  const whose = { seller: word('seller') ?? '', lot: word('lot') ?? '' };
  const asked = ticketsAsked(book, sale.id, whose);
  // A number that leads nowhere is no place to go back to.
  const lotNo = asked.ok && whose.lot !== '' ? asked.value.first : '';
  const found = { seller: asked.ok ? whose.seller : '', lot: lotNo };
  return (
    <>
      <Masthead association={association} sale={sale} here="/intake" />
      <main id="main" className="page">
        <section className="sheet">
          <h1>Lot tickets</h1>
          {asked.ok ? (
            <TicketForm saleId={sale.id} {...whose} {...asked.value} />
          ) : (
            <Notice kind="plain" title={asked.message} />
          )}
          <div className="acts">
            <BackLink saleId={sale.id} {...found} />
          </div>
        </section>
      </main>
    </>
  );
}

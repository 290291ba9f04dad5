import '#app/(stations)/intake/intake.css';
import 'server-only';
import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { Notice } from '#app/ui/notice.tsx';
import type { Book } from '#db/book/open.ts';
import { orWhatBecame } from '#db/lot/former.ts';
import { endsOfLots, type NumberOfLot, numberOfLot, numbersOfLots } from '#db/lot/papers.ts';
import { readLot, splitLotNo } from '#lib/lot/number.ts';
import { lotsAskedFor } from '#lib/paper/tickets.ts';
import { accept, type Result } from '#lib/result/result.ts';
import { TicketForm, type TicketsAsked, type Whose } from './ticket-form.tsx';

export const metadata: Metadata = { title: 'Tickets' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale, word } = await stationContext(searchParams, ['intake']);
  if (!sale) notFound();
  const whose = { seller: word('seller') ?? '', lot: word('lot') ?? '' };
  const asked = ticketsAsked(book, sale.id, whose);
  // A number that leads nowhere is no place to go back to.
  const lotNo = asked.ok && whose.lot !== '' ? asked.value.first : '';
  const found = { seller: asked.ok ? whose.seller : '', lot: lotNo };
  return (
    <StationPage {...{ association, sale }} here="/intake">
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
    </StationPage>
  );
}

function ticketsAsked(book: Book, saleId: number, whose: Whose): Result<TicketsAsked> {
  const all = whose.lot.trim() === '' && whose.seller.trim() === '' ? endsOfLots(book, saleId) : undefined;
  const asked = lotsAskedFor(all?.lots ?? someOf(book, saleId, whose), { saleId, ...whose });
  if (!asked.ok) return orWhatBecame(book, saleId, { lot: whose.lot, refusal: asked });
  const lots = asked.value;
  return accept({ many: all?.many ?? lots.length, first: lots[0]?.lotNo ?? '', last: lots.at(-1)?.lotNo ?? '' });
}

/** No more than could be meant: what is meant is for the rule to say. */
function someOf(book: Book, saleId: number, { seller, lot }: Whose): NumberOfLot[] {
  if (lot.trim() !== '') {
    const read = readLot(lot, saleId);
    return read.ok ? numberOfLot(book, saleId, splitLotNo(read.value)) : [];
  }
  const typed = seller.trim();
  return /^\d{1,5}$/.test(typed) ? numbersOfLots(book, saleId, { sellerNo: Number.parseInt(typed, 10) }) : [];
}

/** The way back to where the tickets were asked for. */
function BackLink({ saleId, seller, lot }: Whose & { readonly saleId: number }) {
  const [path, words] =
    lot !== ''
      ? [`/intake/lot/${encodeURIComponent(lot)}`, 'Back to the lot']
      : seller !== ''
        ? [`/intake/seller/${encodeURIComponent(seller)}`, 'Back to the seller']
        : ['/intake', 'Back to the check-in'];
  return (
    <Link className="button" href={`${path}?sale=${saleId}`}>
      {words}
    </Link>
  );
}

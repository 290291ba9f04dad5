import '#app/(stations)/intake/intake.css';
import type { Metadata } from 'next';
import Link from 'next/link';
import { redirect } from 'next/navigation';
import { NoSaleNotice } from '#app/(stations)/station-frame.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { lastBuyers } from '#db/buyer/accounts.ts';
import { buyerOfTicket, tillView } from '#db/buyer/queries.ts';
import { showMoney } from '#lib/money/money.ts';
import { BuyerList } from './buyer-table.tsx';
import { BuyerByNumber } from './by-number.tsx';
import { CarryBuyers, NewBuyer } from './new-buyer.tsx';
import { TillFrame } from './till-frame.tsx';

export const metadata: Metadata = { title: 'Till' };

const cachedTill = cachedRead(tillView, bySale);

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale, word } = await stationContext(searchParams, ['till']);
  if (!sale) {
    return (
      <TillFrame association={association} sale={sale}>
        <NoSaleNotice />
      </TillFrame>
    );
  }
  const ticket = word('ticket') ?? '';
  const scanned = ticket === '' ? null : buyerOfTicket(book, sale.id, ticket);
  if (scanned?.ok) redirect(`/till/${scanned.value}?sale=${sale.id}`);
  const { rows, owingCents } = cachedTill(book, sale);
  return (
    <TillFrame association={association} sale={sale} live>
      <div className="table-top">
        <section className="sheet">
          <h1>Till</h1>
          <BuyerByNumber key={ticket} saleId={sale.id} ticket={ticket} wrong={scanned?.message} />
          <BuyerList book={book} rows={rows} saleId={sale.id} word={word} />
        </section>
        <aside className="aside">
          <h2>Owing, all buyers together</h2>
          <p className="figure-large">{showMoney(owingCents)}</p>
          <h2>A new buyer</h2>
          <NewBuyer saleId={sale.id} region={sale.region} />
          <CarryBuyers saleId={sale.id} lastYear={lastBuyers(book, sale)} />
          <h2>The drawer</h2>
          <Link href={`/till/drawer?sale=${sale.id}`}>Open, count and close the drawer</Link>
          <h2>Other takings</h2>
          <Link href={`/till/takings?sale=${sale.id}`}>Raffle, door, donations, food; and dues</Link>
        </aside>
      </div>
    </TillFrame>
  );
}

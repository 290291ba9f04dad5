import type { Metadata } from 'next';
import { type Address, stationGround } from '#app/station.ts';
import { today } from '#app/today.ts';
import { PrintLink } from '#app/ui/print-link.tsx';
import { keptOfSale } from '#db/queries/balance-view.ts';
import { ListView } from '../list-view.tsx';
import { PayoutFrame } from '../payout-frame.tsx';

export const metadata: Metadata = { title: 'What we keep' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationGround(searchParams, ['payout']);
  if (!sale) return <PayoutFrame association={association} sale={sale} here="/payout/kept" />;
  const list = keptOfSale(book, sale, today(book));
  return (
    <PayoutFrame association={association} sale={sale} here="/payout/kept">
      <section className="sheet">
        <h1>{list.title}</h1>
        <ListView list={list} />
        <div className="acts">
          <PrintLink href={`/api/papers/payout/kept?sale=${sale.id}`}>Print what we keep</PrintLink>
        </div>
      </section>
    </PayoutFrame>
  );
}

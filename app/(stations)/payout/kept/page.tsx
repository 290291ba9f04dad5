import type { Metadata } from 'next';
import { ListView } from '#app/(stations)/payout/list-view.tsx';
import { PayoutFrame } from '#app/(stations)/payout/payout-frame.tsx';
import { type Address, stationContext, today } from '#app/request/page-context.ts';
import { PrintLink } from '#app/ui/marks.tsx';
import { revenueOfSale } from '#db/report/closing.ts';

export const metadata: Metadata = { title: 'What we keep' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationContext(searchParams, ['payout']);
  if (!sale) return <PayoutFrame association={association} sale={sale} here="/payout/kept" />;
  const list = revenueOfSale(book, sale, today(book));
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

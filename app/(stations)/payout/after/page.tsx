import type { Metadata } from 'next';
import { type Address, stationGround } from '#app/station.ts';
import { today } from '#app/today.ts';
import { Pages } from '#app/ui/pages.tsx';
import { heldOverView } from '#db/queries/afterwards.ts';
import { NO_ADVICE } from '#lib/paper/list.ts';
import { ListView } from '../list-view.tsx';
import { PayoutFrame } from '../payout-frame.tsx';
import { Outgoing } from './outgoing.tsx';
import { Policy } from './policy.tsx';

export const metadata: Metadata = { title: 'Afterwards' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale, word } = await stationGround(searchParams, ['payout']);
  if (!sale) return <PayoutFrame association={association} sale={sale} here="/payout/after" />;
  const { list: held, sellers } = heldOverView(book, sale, { drawnOn: today(book), page: word('page') });
  return (
    <PayoutFrame association={association} sale={sale} here="/payout/after">
      <div className="table-top">
        <section className="sheet">
          <h1>After the sale</h1>
          <Outgoing saleId={sale.id} />
          <p>
            <strong>{NO_ADVICE}</strong> Sales tax and information returns (such as those for what was paid to each
            seller) are for the accountant.
          </p>
        </section>
        <aside className="aside">
          <h2>This sale’s settings</h2>
          <Policy saleId={sale.id} {...{ sellersWait: sale.sellersWait, statementDays: sale.statementDays }} />
        </aside>
        <section className="below">
          <h2>{held.title}</h2>
          <ListView list={{ ...held, caution: '' }} />
          <Pages of={sellers} name="Sellers" href={(page) => `/payout/after?sale=${sale.id}&page=${page}`} />
        </section>
      </div>
    </PayoutFrame>
  );
}

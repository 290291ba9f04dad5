import type { Metadata } from 'next';
import { type Address, stationGround } from '#app/station.ts';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { payoutView } from '#db/queries/payout-view.ts';
import { showMoney } from '#lib/money.ts';
import './payout.css';
import { IssueAll } from './issue-all.tsx';
import { SellerTable } from './seller-table.tsx';

export const metadata: Metadata = { title: 'Payout' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationGround(searchParams);
  if (!sale) {
    return (
      <>
        <Masthead association={association} here="/payout" />
        <main id="main" className="page">
          <Notice kind="plain" title="There is no sale yet: plan one on the Sale page first." />
        </main>
      </>
    );
  }
  const view = payoutView(book, sale);
  return (
    <>
      <Masthead association={association} sale={sale} here="/payout" />
      <Live />
      <main id="main" className="page table-top">
        <section className="sheet">
          <h1>Settlements</h1>
          <SellerTable view={view} saleId={sale.id} />
        </section>
        <aside className="aside">
          <h2>All together</h2>
          <p>To be paid to sellers</p>
          <p className="figure-large">{showMoney(view.toPayCents)}</p>
          {view.owedCents > 0 && <p>Sellers owe the association {showMoney(view.owedCents)}.</p>}
          {view.waiting > 0 && (
            <p>
              Without the seller numbers that have lots still to be called: {view.waiting} of {view.rows.length}.
            </p>
          )}
          <IssueAll saleId={sale.id} ready={view.ready} issued={view.issued} of={view.rows.length} />
        </aside>
      </main>
    </>
  );
}

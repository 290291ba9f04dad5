import '#app/(stations)/intake/intake.css';
import './till.css';
import type { Metadata } from 'next';
import Link from 'next/link';
import { type Address, stationGround } from '#app/request/page-context.ts';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { lastBuyers } from '#db/buyer/accounts.ts';
import { tillView } from '#db/buyer/queries.ts';
import { showMoney } from '#lib/money/money.ts';
import { BuyerList } from './buyer-table.tsx';
import { ByNumber } from './by-number.tsx';
import { CarryBuyers } from './carry-buyers.tsx';
import { NewBuyer } from './new-buyer.tsx';

export const metadata: Metadata = { title: 'Till' };

const cachedTill = cachedRead(tillView, bySale);

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale, word } = await stationGround(searchParams, ['till']);
  if (!sale) {
    return (
      <>
        <Masthead association={association} here="/till" />
        <main id="main" className="page">
          <Notice kind="plain" title="There is no sale yet: plan one on the Sale page first." />
        </main>
      </>
    );
  }
  const { rows, owingCents } = cachedTill(book, sale);
  return (
    <>
      <Masthead association={association} sale={sale} here="/till" />
      <Live />
      <main id="main" className="page table-top">
        <section className="sheet">
          <h1>Till</h1>
          <ByNumber saleId={sale.id} />
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
        </aside>
      </main>
    </>
  );
}

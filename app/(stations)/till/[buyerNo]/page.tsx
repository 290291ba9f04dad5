import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { type Address, stationGround } from '#app/station.ts';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { buyerView } from '#db/queries/till-view.ts';
import { showMoney } from '#lib/money.ts';
import '../till.css';
import { BuyerStanding } from '../buyer-standing.tsx';
import { Beside } from './beside.tsx';
import { BoughtTable } from './bought-table.tsx';
import { BuyerWays } from './buyer-ways.tsx';
import { InvoiceState } from './invoice-state.tsx';
import { NoSuchBuyer } from './no-such-buyer.tsx';
import { TakePayment } from './take-payment.tsx';

export const metadata: Metadata = { title: 'Buyer’s account' };

interface PageProps {
  readonly params: Promise<{ buyerNo: string }>;
  readonly searchParams: Address;
}

export default async function Page({ params, searchParams }: PageProps) {
  const { book, association, sale } = await stationGround(searchParams, ['till']);
  const { buyerNo: text } = await params;
  if (!sale || !/^\d{1,5}$/.test(text)) notFound();
  const buyer = buyerView(book, sale, Number.parseInt(text, 10));
  if (!buyer) return <NoSuchBuyer {...{ association, sale, nobodys: text }} />;
  const { buyerNo, due } = buyer;
  return (
    <>
      <Masthead association={association} sale={sale} here="/till" />
      <Live />
      <main id="main" className="page">
        <BuyerWays saleId={sale.id} buyerNo={buyerNo} here="" />
        <div className="table-top">
          <section className="sheet">
            <h1>
              Buyer {buyerNo}, {buyer.name}
            </h1>
            <BuyerStanding buyer={buyer} />
            <p>{due?.direction === 'out' ? 'We owe the buyer' : 'Owing'}</p>
            <p className="figure-large">{showMoney(buyer.owingCents)}</p>
            <TakePayment {...{ saleId: sale.id, buyerNo, due }} />
          </section>
          <Beside saleId={sale.id} buyer={buyer} />
          <section className="below">
            <h2>Bought</h2>
            <InvoiceState saleId={sale.id} buyer={buyer} />
            <BoughtTable buyer={buyer} />
          </section>
        </div>
      </main>
    </>
  );
}

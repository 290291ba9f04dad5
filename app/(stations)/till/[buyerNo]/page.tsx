import '#app/(stations)/till/till.css';
import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { BuyerStanding } from '#app/(stations)/till/buyer-table.tsx';
import { VoidForm } from '#app/(stations)/till/void-form.tsx';
import { type Address, stationContext } from '#app/request/page-context.ts';
import { Live } from '#app/ui/live.tsx';
import { LocalTime } from '#app/ui/local-time.tsx';
import { Mark } from '#app/ui/marks.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { ColumnHeads } from '#app/ui/text.tsx';
import { type BuyerView, buyerView, type PaymentRow } from '#db/buyer/queries.ts';
import { METHOD_WORDS } from '#lib/buyer/buyer.ts';
import { type Cents, showMoney, ZERO } from '#lib/money/money.ts';
import { BuyerWays, InvoiceState, NoSuchBuyer } from './buyer-frame.tsx';
import { Clearance, TakePayment } from './take-payment.tsx';

export const metadata: Metadata = { title: 'Buyer’s account' };

interface PageProps {
  readonly params: Promise<{ buyerNo: string }>;
  readonly searchParams: Address;
}

export default async function Page({ params, searchParams }: PageProps) {
  const { book, association, sale } = await stationContext(searchParams, ['till']);
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

/** What was paid, and whether the buyer may buy. */
function Beside({ saleId, buyer }: { readonly saleId: number; readonly buyer: BuyerView }) {
  const { buyerNo, cleared } = buyer;
  return (
    <aside className="aside">
      <h2>Paid so far: {showMoney(buyer.paidCents)}</h2>
      <PaymentList payments={buyer.payments} />
      <h2>Clearance</h2>
      <Clearance {...{ saleId, buyerNo, cleared }} />
    </aside>
  );
}

/** The lots of a buyer with premium, tax and total, as the invoice will have them. */
function BoughtTable({ buyer }: { readonly buyer: BuyerView }) {
  if (buyer.lots === 0) return <p>Nothing bought yet.</p>;
  const premium = buyer.premiumCents !== ZERO;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table wider than the screen is scrolled by keyboard too.
    <section className="scroll-x slips-room" aria-label="Lots bought" tabIndex={0}>
      <table className="slips summed">
        <ColumnHeads words={['Lot', 'Goods']} money={premium ? ['Premium', 'Amount'] : ['Amount']} />
        <tbody>
          {buyer.bought.map((lot) => (
            <tr key={lot.lotNo}>
              <th scope="row">{lot.lotNo}</th>
              <td className="slip-name">
                {lot.goods}
                <div className="small soft">
                  {lot.quantity} at {lot.price}
                </div>
              </td>
              {premium && (
                <td className="money" data-head="Premium">
                  {lot.premium}
                </td>
              )}
              <td className="money slip-sum">{lot.amount}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          {sumsOf(buyer).map(([label, sum]) => (
            <tr key={label}>
              <th scope="row" colSpan={premium ? 3 : 2} className="slip-name">
                {label}
              </th>
              <td className="money slip-sum">{showMoney(sum)}</td>
            </tr>
          ))}
        </tfoot>
      </table>
    </section>
  );
}

/** The steps from the lots to the total, as the invoice has them: what plays no part is not said. */
function sumsOf(buyer: BuyerView): readonly (readonly [string, Cents])[] {
  const { amountCents, premiumCents, taxCents, totalCents } = buyer;
  const more = [['Premium', premiumCents] as const, ['Tax', taxCents] as const].filter(([, sum]) => sum !== ZERO);
  return [...(more.length > 0 ? [['Lots', amountCents] as const] : []), ...more, ['Total', totalCents]];
}

/** What was paid and handed back, in its order; a voided payment stays to be read. */
function PaymentList({ payments }: { readonly payments: readonly PaymentRow[] }) {
  if (payments.length === 0) return <p>No payment yet.</p>;
  return (
    <ul className="payments">
      {payments.map((one) => {
        const words = one.direction === 'out' ? `${METHOD_WORDS[one.method]}, handed back` : METHOD_WORDS[one.method];
        return (
          <li key={one.paymentId}>
            <span className="payment-amount">{one.amount}</span> {words}
            {one.reference && ` ${one.reference}`}, <LocalTime at={one.paidAt} />
            <div>
              <a href={`/api/papers/payment-receipt?payment=${one.paymentId}`} target="_blank" rel="noreferrer">
                Receipt {one.paymentId}
              </a>
            </div>
            {one.voided === null ? (
              <VoidForm
                voids={{ command: 'payment.void', paymentId: one.paymentId }}
                summary={`Void ${one.amount}`}
                label={`Void ${one.amount}`}
                act="Void the payment"
              />
            ) : (
              <div>
                <Mark tone="stop">voided: {one.voided}</Mark>
              </div>
            )}
          </li>
        );
      })}
    </ul>
  );
}

import type { Metadata } from 'next';
import Link from 'next/link';
import { FoldedAsk } from '#app/(stations)/give-forms.tsx';
import { BuyerStanding, Clearance } from '#app/(stations)/till/buyer-table.tsx';
import { BuyerByNumber } from '#app/(stations)/till/by-number.tsx';
import {
  BuyerFrame,
  type BuyerPageProps,
  buyerAddress,
  InvoiceMark,
  TillFrame,
} from '#app/(stations)/till/till-frame.tsx';
import { Moment } from '#app/request/moment.tsx';
import { Mark } from '#app/ui/marks.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import type { SaleRow } from '#db/book/find.ts';
import { type BuyerView, buyerView, type PaymentRow, type UnpaidLot } from '#db/buyer/queries.ts';
import { paymentWords, voidedOf } from '#lib/buyer/buyer.ts';
import { type Cents, showMoney, ZERO } from '#lib/money/money.ts';
import { owingWords, paidWords } from '#lib/payment/amount-words.ts';
import { isHandedOver } from '#lib/seller/account.ts';
import { NotPaidFor } from './not-paid-for.tsx';
import { TakePayment } from './take-payment.tsx';

export const metadata: Metadata = { title: 'Buyer’s account' };

export default async function Page(props: BuyerPageProps) {
  const { book, association, sale, buyerNo, text } = await buyerAddress(props);
  const buyer = buyerView(book, sale, buyerNo);
  if (!buyer) return <NoSuchBuyer {...{ association, sale, nobodys: text }} />;
  const { due } = buyer;
  const [owing, [paid, ...apart]] = [owingWords(buyer.owingCents), paidWords(buyer)];
  return (
    <BuyerFrame {...{ association, sale, buyerNo }} here="">
      <div className="table-top">
        <section className="sheet">
          <h1>
            Buyer {buyerNo}, {buyer.name}
          </h1>
          <BuyerStanding buyer={buyer} />
          <p>{owing.label}</p>
          <p className="figure-large">{owing.amount}</p>
          <TakePayment {...{ saleId: sale.id, buyerNo, due, voided: voidedOf(buyer.payments) }} />
        </section>
        <aside className="aside">
          <h2>
            {paid.label}: {paid.amount}
          </h2>
          {apart.map(({ label, amount }) => (
            <p key={label}>
              {label}: {amount}
            </p>
          ))}
          <PaymentList payments={buyer.payments} />
          <h2>Clearance</h2>
          <Clearance saleId={sale.id} buyer={buyer} />
        </aside>
        <section className="below">
          <h2>Bought</h2>
          <InvoiceState saleId={sale.id} buyer={buyer} />
          <BoughtTable buyer={buyer} />
          <UnpaidLots lots={buyer.unpaid} />
          {sale.stage !== 'closed' && buyer.here.length > 0 && buyer.owingCents > ZERO && (
            <NotPaidFor {...{ saleId: sale.id, buyerNo, lots: buyer.here }} selling={sale.stage === 'selling'} />
          )}
        </section>
      </div>
    </BuyerFrame>
  );
}

/** The till's box once more, with the number that nobody has still in it. */
function NoSuchBuyer({ nobodys, ...frame }: { association: string; sale: SaleRow; nobodys: string }) {
  const { sale } = frame;
  return (
    <TillFrame {...frame}>
      <section className="sheet">
        <h1>Till</h1>
        <BuyerByNumber saleId={sale.id} nobodys={nobodys} />
        <Link href={`/till?sale=${sale.id}`}>All buyers</Link>
      </section>
    </TillFrame>
  );
}

/** Whether there is an invoice, and whether it still says what was bought; with the way to it. */
function InvoiceState({ saleId, buyer }: { readonly saleId: number; readonly buyer: BuyerView }) {
  const { buyerNo, lots, invoice } = buyer;
  if (invoice === null && lots === 0) return <p>There is nothing to bill yet.</p>;
  return (
    <p>
      <InvoiceMark invoice={invoice} />{' '}
      <Link href={`/till/${buyerNo}/invoice?sale=${saleId}`} prefetch={false}>
        {invoice === null ? 'Look it through and issue it' : invoice.stillTrue ? 'Show the invoice' : 'Correct it'}
      </Link>
    </p>
  );
}

/** The lots of a buyer with premium, tax and total, as the invoice will have them. */
function BoughtTable({ buyer }: { readonly buyer: BuyerView }) {
  if (buyer.lots === 0) return <p>Nothing bought yet.</p>;
  const premium = buyer.premiumCents !== ZERO;
  return (
    <ScrollRegion label="Lots bought">
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
    </ScrollRegion>
  );
}

/** What was put down as not paid for: it is on no invoice any more, and is read here. */
function UnpaidLots({ lots }: { readonly lots: readonly UnpaidLot[] }) {
  if (lots.length === 0) return null;
  return (
    <>
      <h2>Not paid for</h2>
      <ul>
        {lots.map(({ lotNo, goods, price, fate, reason }) => (
          <li key={lotNo}>
            Lot {lotNo}, {goods}, at {price}: {fate}. <span className="soft">{reason}</span>
          </li>
        ))}
      </ul>
    </>
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
        const words = paymentWords(one);
        return (
          <li key={one.paymentId}>
            <span className="payment-amount">{one.amount}</span> {words}, <Moment at={one.paidAt} />
            {one.method !== 'written_off' && (
              <div>
                <a href={`/api/papers/payment-receipt?payment=${one.paymentId}`} target="_blank" rel="noreferrer">
                  {isHandedOver(one) ? 'Receipt' : 'Note'} {one.paymentId}
                </a>
              </div>
            )}
            {one.voidable && (
              <FoldedAsk
                {...{
                  station: isHandedOver(one) ? 'till' : 'payout',
                  command: 'payment.void',
                  input: { paymentId: one.paymentId },
                }}
                asks={{ label: 'Why it is voided' }}
                summary={`Void ${one.amount}`}
                entry={`Void ${one.amount}`}
                act="Void the payment"
              />
            )}
            {one.voided !== null && (
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

import '#app/(stations)/till/till.css';
import type { Metadata } from 'next';
import { type BuyerPageProps, BuyerWays, buyerGround } from '#app/(stations)/till/[buyerNo]/buyer-frame.tsx';
import { Clearance } from '#app/(stations)/till/[buyerNo]/take-payment.tsx';
import { BuyerStanding } from '#app/(stations)/till/buyer-table.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { buyerByNumber } from '#db/book/find.ts';
import { buyerView } from '#db/buyer/queries.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { typedOf } from '#lib/field/fields.ts';
import { DetailsForm } from './details-form.tsx';

export const metadata: Metadata = { title: 'Buyer’s details' };

export default async function Page(props: BuyerPageProps) {
  const { book, association, sale, buyerNo, file } = await buyerGround(props);
  const buyer = buyerView(book, sale, buyerNo);
  const limitCents = buyerByNumber(book, sale.id, buyerNo)?.limitCents ?? null;
  const details = typedOf(BUYER_FIELDS, { ...file.buyer, limitCents });
  return (
    <>
      <Masthead association={association} sale={sale} here="/till" />
      <main id="main" className="page">
        <BuyerWays saleId={sale.id} buyerNo={buyerNo} here="/details" />
        <div className="table-top">
          <section className="sheet">
            <h1>
              Buyer {buyerNo}, {buyer?.name}
            </h1>
            {buyer && <BuyerStanding buyer={buyer} />}
            <DetailsForm {...{ saleId: sale.id, buyerNo, details }} />
          </section>
          <aside className="aside">
            <h2>Clearance</h2>
            <Clearance {...{ saleId: sale.id, buyerNo, cleared: buyer?.cleared ?? false }} />
            <p className="small">
              Whether a licence is good is your wildlife agency’s to say, whether an exemption holds your accountant’s.
            </p>
          </aside>
        </div>
      </main>
    </>
  );
}

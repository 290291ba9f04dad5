import type { Metadata } from 'next';
import { DetailsForm } from '#app/(stations)/till/buyer-fields.tsx';
import { BuyerStanding, Clearance } from '#app/(stations)/till/buyer-table.tsx';
import { BuyerFrame, type BuyerPageProps, buyerContext } from '#app/(stations)/till/till-frame.tsx';
import { buyerByNumber } from '#db/book/find.ts';
import { buyerView } from '#db/buyer/queries.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { typedOf } from '#lib/field/fields.ts';

export const metadata: Metadata = { title: 'Buyer’s details' };

export default async function Page(props: BuyerPageProps) {
  const { book, association, sale, buyerNo, file } = await buyerContext(props);
  const buyer = buyerView(book, sale, buyerNo);
  const limitCents = buyerByNumber(book, sale.id, buyerNo)?.limitCents ?? null;
  const details = typedOf(BUYER_FIELDS, { ...file.buyer, limitCents });
  return (
    <BuyerFrame {...{ association, sale, buyerNo }} here="/details" live={false}>
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
          <Clearance saleId={sale.id} buyer={{ buyerNo, cleared: buyer?.cleared ?? false }} />
          <p className="small">
            Whether a licence is good is your wildlife agency’s to say, whether an exemption holds your accountant’s.
          </p>
        </aside>
      </div>
    </BuyerFrame>
  );
}

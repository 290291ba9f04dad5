import type { Metadata } from 'next';
import { today } from '#app/today.ts';
import { Masthead } from '#app/ui/masthead.tsx';
import { PaperLink } from '#app/ui/paper-link.tsx';
import { purchaseRecord } from '#lib/buyer/purchase-record.ts';
import '../../till.css';
import { type BuyerPageProps, buyerGround } from '../buyer-ground.ts';
import { BuyerWays } from '../buyer-ways.tsx';
import { RecordView } from './record-view.tsx';

export const metadata: Metadata = { title: 'Purchase record' };

export default async function Page(props: BuyerPageProps) {
  const { book, association, sale, buyerNo, file } = await buyerGround(props);
  const record = purchaseRecord(file, today(book));
  const words = `sale=${sale.id}&buyer=${buyerNo}`;
  const name = `purchase-record-${sale.id}-buyer-${buyerNo}`;
  return (
    <>
      <Masthead association={association} sale={sale} here="/till" />
      <main id="main" className="page">
        <BuyerWays saleId={sale.id} buyerNo={buyerNo} here="/record" />
        <RecordView record={record} />
        <div className="acts">
          <PaperLink href={`/api/papers/purchase-record?${words}`} name={`${name}.pdf`}>
            Print the record
          </PaperLink>
          <a className="button" href={`/api/papers/purchase-record/csv?${words}`} download={`${name}.csv`}>
            Save it as CSV
          </a>
        </div>
      </main>
    </>
  );
}

import type { Metadata } from 'next';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { MendTag } from '#app/ui/mend-tag.tsx';
import { handOverView } from '#db/queries/hand-over-view.ts';
import { buyerView } from '#db/queries/till-view.ts';
import { showMoney, ZERO } from '#lib/money.ts';
import '../../till.css';
import { type BuyerPageProps, buyerGround } from '../buyer-ground.ts';
import { BuyerWays } from '../buyer-ways.tsx';
import { GoneLots } from './gone-lots.tsx';
import { HandOver } from './hand-over.tsx';
import { UnpaidRule } from './unpaid-rule.tsx';

export const metadata: Metadata = { title: 'Hand over' };

export default async function Page(props: BuyerPageProps) {
  const { book, association, sale, buyerNo } = await buyerGround(props);
  const buyer = buyerView(book, sale, buyerNo);
  const { here, gone } = handOverView(book, sale.id, buyerNo) ?? { here: [], gone: [] };
  const name = buyer?.name ?? '';
  return (
    <>
      <Masthead association={association} sale={sale} here="/till" />
      <Live />
      <main id="main" className="page">
        <BuyerWays saleId={sale.id} buyerNo={buyerNo} here="/hand-over" />
        <div className="table-top">
          <section className="sheet">
            <h1>
              Hand over to buyer {buyerNo}, {name}
            </h1>
            <HandOver {...{ saleId: sale.id, buyerNo, name, lots: here }} />
            <MendTag station="till" saleId={sale.id} lots={[...here, ...gone]} />
          </section>
          <aside className="aside">
            <h2>Owing</h2>
            <p className="figure-large">{showMoney(buyer?.owingCents ?? ZERO)}</p>
            <UnpaidRule saleId={sale.id} unpaid={sale.handOverUnpaid} />
            <h2>Taken away</h2>
            <GoneLots saleId={sale.id} lots={gone} />
          </aside>
        </div>
      </main>
    </>
  );
}

import '#app/(stations)/till/till.css';
import type { Metadata } from 'next';
import { MendTag } from '#app/(stations)/mend-tag.tsx';
import { type BuyerPageProps, BuyerWays, buyerGround } from '#app/(stations)/till/[buyerNo]/buyer-frame.tsx';
import { Live } from '#app/ui/live.tsx';
import { LocalTime } from '#app/ui/local-time.tsx';
import { Mark } from '#app/ui/marks.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { type GoneLot, handOverView } from '#db/buyer/handover.ts';
import { buyerView } from '#db/buyer/queries.ts';
import { showMoney, ZERO } from '#lib/money/money.ts';
import { HandOver } from './hand-over.tsx';
import { TakeBack, UnpaidRule } from './take-back.tsx';

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

/** The lots that were handed over, with who took them and when; one that comes back is taken back under them. */
function GoneLots({ saleId, lots }: { readonly saleId: number; readonly lots: readonly GoneLot[] }) {
  if (lots.length === 0) return <p>Nothing yet.</p>;
  return (
    <>
      <ul className="payments">
        {lots.map(({ lotNo, goods, quantity, takenBy, at, worker, wentTo, waiting }) => (
          <li key={lotNo}>
            <strong>Lot {lotNo}</strong>, {goods}, {quantity}
            <div className="small">
              taken by {takenBy}, <LocalTime at={at} />, given out by {worker}
            </div>
            {waiting > 0 && (
              <Mark tone="wait">
                {waiting === 1 ? '1 tag broken' : `${waiting} tags broken`}: not exportable until replaced
              </Mark>
            )}
            {wentTo !== null && <Mark tone="stop">went to buyer {wentTo}: fetch it, and take it back here</Mark>}
          </li>
        ))}
      </ul>
      <TakeBack saleId={saleId} lotNos={lots.map(({ lotNo }) => lotNo)} />
    </>
  );
}

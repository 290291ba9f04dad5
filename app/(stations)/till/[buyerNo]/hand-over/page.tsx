import type { Metadata } from 'next';
import { GiveButton } from '#app/(stations)/give-forms.tsx';
import { MendTag } from '#app/(stations)/mend-tag.tsx';
import { BuyerFrame, type BuyerPageProps, buyerContext } from '#app/(stations)/till/till-frame.tsx';
import { Moment } from '#app/request/moment.tsx';
import { Mark } from '#app/ui/marks.tsx';
import { type GoneLot, handOverView } from '#db/buyer/handover.ts';
import { buyerView } from '#db/buyer/queries.ts';
import { goneNumbers } from '#db/lot/former.ts';
import { ZERO } from '#lib/money/money.ts';
import { owingWords } from '#lib/payment/amount-words.ts';
import { HandOver, TakeBack } from './hand-over.tsx';

export const metadata: Metadata = { title: 'Hand over' };

export default async function Page(props: BuyerPageProps) {
  const { book, association, sale, buyerNo } = await buyerContext(props);
  const buyer = buyerView(book, sale, buyerNo);
  const { here, gone } = handOverView(book, sale.id, buyerNo) ?? { here: [], gone: [] };
  const name = buyer?.name ?? '';
  const owing = owingWords(buyer?.owingCents ?? ZERO);
  return (
    <BuyerFrame {...{ association, sale, buyerNo }} here="/hand-over">
      <div className="table-top">
        <section className="sheet">
          <h1>
            Hand over to buyer {buyerNo}, {name}
          </h1>
          <HandOver {...{ saleId: sale.id, buyerNo, name, lots: here, gone: goneNumbers(book, sale.id) }} />
          <MendTag station="till" saleId={sale.id} lots={[...here, ...gone]} />
        </section>
        <aside className="aside">
          <h2>{owing.label}</h2>
          <p className="figure-large">{owing.amount}</p>
          <UnpaidRule saleId={sale.id} unpaid={sale.handOverUnpaid} open={sale.stage !== 'closed'} />
          <h2>Taken away</h2>
          <GoneLots saleId={sale.id} lots={gone} />
        </aside>
      </div>
    </BuyerFrame>
  );
}

interface UnpaidRuleProps {
  readonly saleId: number;
  readonly unpaid: boolean;
  /** Once the sale is closed, the rule stays as it is. */
  readonly open: boolean;
}

/** Whether lots may go before they are paid, as the sale has it; the office can change it. */
function UnpaidRule({ saleId, unpaid, open }: UnpaidRuleProps) {
  return (
    <details>
      <summary>{unpaid ? 'Lots may go unpaid at this sale' : 'Only paid lots are handed over'}</summary>
      <p className="small">
        {unpaid
          ? 'Nobody is asked for payment before lots leave the hall.'
          : 'What a buyer takes, with what was taken before, has to be covered by what was paid.'}
      </p>
      {open && (
        <GiveButton
          station="office"
          command="sale.handover"
          input={{ saleId, unpaid: !unpaid }}
          label="Handing over unpaid lots"
        >
          {unpaid ? 'Hand over only paid lots' : 'Let lots go unpaid'}
        </GiveButton>
      )}
    </details>
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
              taken by {takenBy}, <Moment at={at} />, given out by {worker}
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

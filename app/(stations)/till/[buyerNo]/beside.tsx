import type { BuyerView } from '#db/queries/till-view.ts';
import { showMoney } from '#lib/money.ts';
import { Clearance } from './clearance.tsx';
import { PaymentList } from './payment-list.tsx';

/** What was paid, and whether the buyer may buy. */
export function Beside({ saleId, buyer }: { readonly saleId: number; readonly buyer: BuyerView }) {
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

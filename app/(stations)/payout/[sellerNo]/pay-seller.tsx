import { Mark } from '#app/ui/mark.tsx';
import { PrintLink } from '#app/ui/print-link.tsx';
import type { PayoutSellerView } from '#db/queries/payout-seller-view.ts';
import { showMoney } from '#lib/money.ts';
import { WriteChecks } from '../write-checks.tsx';
import { PayPartner } from './pay-partner.tsx';

interface PaySellerProps {
  readonly saleId: number;
  readonly view: PayoutSellerView;
  readonly likely: number;
}

/** What each partner has had, what is due now, and how it is paid. */
export function PaySeller({ saleId, view, likely }: PaySellerProps) {
  const { sellerNo, partners, waitsFor, checks, changed } = view;
  const toPay = partners.some(({ due }) => due?.direction === 'out');
  const waits = waitsFor.length > 0;
  const ready = toPay && !changed && !waits;
  return (
    <section className="sheet" aria-label="Payment">
      <h2>Payment</h2>
      {waits && <p>This number waits for the money of buyer {waitsFor.join(', ')}: take it at the Till first.</p>}
      <ul className="partners">
        {partners.map((partner) => (
          <li key={partner.personId}>
            <strong>{partner.name}</strong>: share {partner.share}, paid {partner.paid}{' '}
            {partner.due === null ? (
              <Mark tone="done">even</Mark>
            ) : (
              <Mark tone="open">
                {partner.due.amount} {partner.due.direction === 'out' ? 'to pay' : 'to get'}
              </Mark>
            )}
            <PayPartner
              {...{ saleId, sellerNo, personId: partner.personId, name: partner.name }}
              due={changed || (waits && partner.due?.direction === 'out') ? null : partner.due}
            />
          </li>
        ))}
      </ul>
      {checks.map(({ number, amountCents, name, voidedOn }) => (
        <div key={number} className="acts">
          <span>
            Check {number}, {showMoney(amountCents)} to {name}
            {voidedOn !== null && ', void'}
          </span>
          <PrintLink href={`/api/papers/payout/check-stubs?sale=${saleId}&check=${number}`}>Stub of {number}</PrintLink>
        </div>
      ))}
      <WriteChecks saleId={saleId} sellerNo={sellerNo} payable={ready ? 1 : 0} likely={likely} />
    </section>
  );
}

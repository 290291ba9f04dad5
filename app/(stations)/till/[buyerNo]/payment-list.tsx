import { LocalTime } from '#app/ui/local-time.tsx';
import { Mark } from '#app/ui/mark.tsx';
import type { PaymentRow } from '#db/queries/till-view.ts';
import { METHOD_WORDS } from '#lib/buyer/input.ts';
import { VoidForm } from '../void-form.tsx';

/** What was paid and handed back, in its order; a voided payment stays to be read. */
export function PaymentList({ payments }: { readonly payments: readonly PaymentRow[] }) {
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
                command="payment.void"
                inputOf={(reason) => ({ paymentId: one.paymentId, reason })}
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

import Link from 'next/link';
import { Mark } from '#app/ui/mark.tsx';
import type { BuyerView } from '#db/queries/till-view.ts';

interface InvoiceStateProps {
  readonly saleId: number;
  readonly buyer: Pick<BuyerView, 'buyerNo' | 'lots' | 'invoice'>;
}

/** Whether there is an invoice, and whether it still says what was bought; with the way to it. */
export function InvoiceState({ saleId, buyer: { buyerNo, lots, invoice } }: InvoiceStateProps) {
  if (invoice === null && lots === 0) return <p>There is nothing to bill yet.</p>;
  const href = `/till/${buyerNo}/invoice?sale=${saleId}`;
  return (
    <p>
      <InvoiceMark invoice={invoice} />{' '}
      <Link href={href} prefetch={false}>
        {invoice === null ? 'Look it through and issue it' : invoice.stillTrue ? 'Show the invoice' : 'Correct it'}
      </Link>
    </p>
  );
}

export function InvoiceMark({ invoice }: Pick<BuyerView, 'invoice'>) {
  if (invoice === null) return <Mark tone="open">no invoice yet</Mark>;
  if (invoice.stillTrue) return <Mark tone="done">invoice {invoice.number}</Mark>;
  return <Mark tone="stop">invoice {invoice.number} is no longer true</Mark>;
}

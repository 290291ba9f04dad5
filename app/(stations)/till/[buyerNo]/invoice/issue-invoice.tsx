'use client';

import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface IssueInvoiceProps {
  readonly saleId: number;
  readonly buyerNo: number;
  /** The number of the invoice that is no longer true, or null. */
  readonly corrects: number | null;
}

/** Issues the buyer's invoice: from then on it is frozen, and what changes later makes a further one. */
export function IssueInvoice({ saleId, buyerNo, corrects }: IssueInvoiceProps) {
  const { give, busy, refusal } = useGive('till');
  const issue = () => {
    const input = { saleId, buyerNo };
    return give('invoice.issue', input, `Invoice of buyer ${buyerNo}`);
  };
  return (
    <>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <button type="button" className="act" disabled={busy} onClick={() => void issue()}>
        {corrects === null ? 'Issue the invoice' : `Issue the correction of invoice ${corrects}`}
      </button>
    </>
  );
}

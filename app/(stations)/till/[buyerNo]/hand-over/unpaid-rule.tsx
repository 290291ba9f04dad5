'use client';

import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

/** Whether lots may go before they are paid, as the sale has it; the office can change it. */
export function UnpaidRule({ saleId, unpaid }: { readonly saleId: number; readonly unpaid: boolean }) {
  const { give, busy, refusal } = useGive('office');
  const change = () => give('sale.handover', { saleId, unpaid: !unpaid }, 'Handing over unpaid lots');
  return (
    <details>
      <summary>{unpaid ? 'Lots may go unpaid at this sale' : 'Only paid lots are handed over'}</summary>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <p className="small">
        {unpaid
          ? 'Nobody is asked for payment before lots leave the hall.'
          : 'What a buyer takes, with what was taken before, has to be covered by what was paid.'}
      </p>
      <button type="button" disabled={busy} onClick={() => void change()}>
        {unpaid ? 'Hand over only paid lots' : 'Let lots go unpaid'}
      </button>
    </details>
  );
}

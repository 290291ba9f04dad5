'use client';

import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface ClearanceProps {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly cleared: boolean;
}

/** Clears the buyer to buy, or takes the clearance back. */
export function Clearance({ saleId, buyerNo, cleared }: ClearanceProps) {
  const { give, busy, refusal } = useGive('till');
  const input = { saleId, buyerNo, cleared: !cleared };
  return (
    <div className="clearance">
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <button
        type="button"
        disabled={busy}
        onClick={() => void give('buyer.clear', input, `Clearance of buyer ${buyerNo}`)}
      >
        {cleared ? 'Take the clearance back' : 'Clear to buy'}
      </button>
    </div>
  );
}

'use client';

import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface IssueOneProps {
  readonly saleId: number;
  readonly sellerNo: number;
}

/** Issues this seller number's sheet: from then on it is frozen. */
export function IssueOne({ saleId, sellerNo }: IssueOneProps) {
  const { give, busy, refusal } = useGive('payout');
  const issue = () =>
    give({
      command: 'settlement.issue',
      input: { saleId, sellerNo },
      label: `Sheet of seller ${sellerNo}`,
    });
  return (
    <>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <button type="button" className="act" disabled={busy} onClick={() => void issue()}>
        Issue the sheet
      </button>
    </>
  );
}

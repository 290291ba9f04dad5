'use client';

import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { PaperLink } from './paper-link.tsx';

interface IssueAllProps {
  readonly saleId: number;
  readonly ready: number;
  readonly issued: number;
  readonly of: number;
}

/** Issues every sheet that can be issued, and prints all of them in one go. */
export function IssueAll({ saleId, ready, issued, of }: IssueAllProps) {
  const { give, busy, refusal } = useGive('payout');
  const issue = () =>
    give({
      command: 'settlement.issue',
      input: { saleId, sellerNo: null },
      label: 'Issue all sheets',
    });
  return (
    <>
      <p>
        {issued} of {of} sheets issued. An issued sheet is never changed.
      </p>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <div className="acts">
        {ready > 0 && (
          <button type="button" className="act" disabled={busy} onClick={() => void issue()}>
            {ready === 1 ? 'Issue the sheet that is ready' : `Issue the ${ready} sheets that are ready`}
          </button>
        )}
        {issued > 0 && (
          <PaperLink href={`/api/papers/sheets?sale=${saleId}`} name={`settlement-sheets-${saleId}.pdf`}>
            Print all issued sheets
          </PaperLink>
        )}
      </div>
    </>
  );
}

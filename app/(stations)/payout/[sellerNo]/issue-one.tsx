'use client';

import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { ISSUE_QUESTIONS, type IssueQuestion } from '#lib/sheet/decide-issue.ts';

interface IssueOneProps {
  readonly saleId: number;
  readonly sellerNo: number;
}

/** Issues this seller number's sheet: from then on it is frozen. With lots that were not called, it is asked first. */
export function IssueOne({ saleId, sellerNo }: IssueOneProps) {
  const { give, busy, refusal, clear } = useGive('payout');
  const issue = (answered: readonly IssueQuestion[]) =>
    give('settlement.issue', { saleId, sellerNo, answered }, `Sheet of seller ${sellerNo}`);
  const asked = ISSUE_QUESTIONS.find((question) => refusal?.code === 'needs_answer' && refusal.field === question);
  return (
    <>
      {refusal && asked === undefined && <Notice kind="stop" title={refusal.message} />}
      {refusal && asked !== undefined && (
        <Notice kind="wait" title={refusal.message}>
          <div className="acts">
            <button type="button" disabled={busy} onClick={() => void issue([asked])}>
              Yes, issue it
            </button>
            <button type="button" disabled={busy} onClick={clear}>
              No, go back
            </button>
          </div>
        </Notice>
      )}
      <button type="button" className="act" disabled={busy} onClick={() => void issue([])}>
        Issue the sheet
      </button>
    </>
  );
}

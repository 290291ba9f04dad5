'use client';

import { AskedFirst } from '#app/(stations)/use-payment.tsx';
import { Act } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { PaperLink } from '#app/ui/paper-link.tsx';
import { unsayAll, useGive, useSaid } from '#app/ui/use-give.ts';
import type { ValueOf } from '#db/commands.ts';
import type { Many } from '#db/settlement/payout-view.ts';
import { showMoney } from '#lib/money/money.ts';

interface IssueAllProps {
  readonly saleId: number;
  readonly ready: number;
  /** Those of the ready sheets by which a seller would owe. */
  readonly bills: Many;
  /** Sellers who are skipped, with lots that have not been called. */
  readonly skipped: number;
  readonly issued: number;
  readonly of: number;
}

/** Issues every sheet that can be issued, and prints all of them in one go. */
export function IssueAll({ saleId, ready, bills, skipped, issued, of }: IssueAllProps) {
  const { give, busy, refusal } = useGive('payout');
  // As it was when it was asked: an answer is to what was read.
  const [asked, setAsked] = useSaid<Asked>();
  const [done, setDone] = useSaid<string>();
  const ask = () => {
    unsayAll();
    setAsked({ ready, bills, skipped });
  };
  const issue = async (seen: number) => {
    setAsked(undefined);
    const input = { saleId, sellerNo: null, seen };
    const reply = await give('settlement.issue', input, 'Issue all sheets');
    if (reply.ok) setDone(doneWords(reply.value));
  };
  return (
    <>
      <p>
        {issued} of {of} sheets issued. An issued sheet is never changed.
      </p>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      {done && <Notice kind="done" title={done} />}
      {asked && (
        <AskedFirst
          yes={asked.ready === 1 ? 'Yes, issue 1 sheet' : `Yes, issue ${asked.ready} sheets`}
          busy={busy}
          act={() => void issue(asked.ready)}
          leave={() => setAsked(undefined)}
        >
          {questionWords(asked)}
        </AskedFirst>
      )}
      <div className="acts">
        {ready > 0 && !asked && (
          <Act
            words={ready === 1 ? 'Issue the sheet that is ready' : `Issue the ${ready} sheets that are ready`}
            act={ask}
            main
            disabled={busy}
          />
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

type Asked = Pick<IssueAllProps, 'ready' | 'bills' | 'skipped'>;

function questionWords({ ready, bills, skipped }: Asked): string {
  const what = ready === 1 ? 'Issue 1 sheet now?' : `Issue ${ready} sheets now?`;
  const who = bills.count === 1 ? '1 seller' : `${bills.count} sellers`;
  const owed = bills.count === 0 ? 'No seller would owe.' : `${who} would owe ${showMoney(bills.cents)}.`;
  return [what, owed, skippedWords(skipped, 'is', 'are')].filter(Boolean).join(' ');
}

function doneWords({ issued, skipped = [] }: ValueOf<'settlement.issue'>): string {
  const what = issued.length === 1 ? '1 sheet issued.' : `${issued.length} sheets issued.`;
  return [what, skippedWords(skipped.length, 'was', 'were')].filter(Boolean).join(' ');
}

function skippedWords(skipped: number, one: string, more: string): string {
  if (skipped === 0) return '';
  return `${skipped === 1 ? `1 seller ${one}` : `${skipped} sellers ${more}`} skipped, with lots that have not been called.`;
}

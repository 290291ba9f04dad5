'use client';

import { useState } from 'react';
import { AskOne } from '#app/(stations)/give-forms.tsx';
import { PaymentFields, usePayment } from '#app/(stations)/use-payment.tsx';
import { Act, Form, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { PartnerView } from '#db/settlement/payout.ts';
import { ISSUE_QUESTIONS, type IssueQuestion } from '#lib/settlement/decide-issue.ts';

/** Issues this seller number's sheet: from then on it is frozen. With lots that were not called, it is asked first. */
export function IssueOne({ saleId, sellerNo }: { readonly saleId: number; readonly sellerNo: number }) {
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
            <Act words="Yes, issue it" act={() => issue([asked])} disabled={busy} />
            <Act words="No, go back" act={clear} disabled={busy} />
          </div>
        </Notice>
      )}
      <Act words="Issue the sheet" act={() => issue([])} main disabled={busy} />
    </>
  );
}

interface CorrectOneProps {
  readonly saleId: number;
  readonly sellerNo: number;
  readonly sheetNumber: number | null;
}

/** Says that the sheet is no longer right, and issues the correction sheet with the reason. */
export function CorrectOne({ saleId, sellerNo, sheetNumber }: CorrectOneProps) {
  return (
    <div className="notice" data-kind="wait">
      <AskOne
        aria-label="Correction"
        station="payout"
        command="settlement.correct"
        inputOf={(reason) => ({ saleId, sellerNo, reason })}
        asks={{ label: 'Why it is corrected', hint: 'Such as: price of lot 12 misheard' }}
        act="Issue the correction sheet"
        main
        entry={`Correction of seller ${sellerNo}`}
      >
        <p>
          <strong>The sums have changed since sheet {sheetNumber} was issued.</strong> That sheet stays as it was; a
          correction sheet says what is right now, and the difference.
        </p>
      </AskOne>
    </div>
  );
}

interface PayPartnerProps extends Pick<PartnerView, 'personId' | 'name' | 'due'> {
  readonly saleId: number;
  readonly sellerNo: number;
}

/** Checks to a partner are written with their number; here is what goes by hand. */
const METHODS = {
  out: { cash: 'Cash', other: 'Other' },
  in: { cash: 'Cash', check: 'Check', card: 'Card', other: 'Other' },
} as const;

/**
 * Pays a partner in cash, or takes in what a partner owes; `due` is null where nothing may be. What became of it stays to be read when nothing is due any
 * more: of two who pay at once, one must see that the money is not to be handed over again.
 */
export function PayPartner({ saleId, sellerNo, personId, name, due }: PayPartnerProps) {
  const [done, setDone] = useState('');
  const payment = usePayment('payout', due);
  const { pay, question, amount, busy, elsewhere } = payment;
  const isOut = due?.direction === 'out';
  const record = async () => {
    setDone('');
    const onDone = () => setDone(isOut ? `${amount} paid to ${name}.` : `${amount} taken in from ${name}.`);
    await pay({ party: { saleId, sellerNo, personId }, label: `Payment of ${name}`, onDone });
  };
  return (
    <>
      {done && <Notice kind="done" title={done} />}
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      {question}
      {due && (
        <details>
          <summary>{isOut ? `Pay ${name} by hand` : `Take in what ${name} owes`}</summary>
          <Form onEntered={record} busy={busy}>
            <div className="fields">
              <PaymentFields
                payment={payment}
                amountLabel="Amount"
                methods={METHODS[due.direction]}
                hint="Such as the number of their check"
              />
            </div>
            <SubmitActs label={isOut ? 'Paid' : 'Taken in'} disabled={busy} />
          </Form>
        </details>
      )}
    </>
  );
}

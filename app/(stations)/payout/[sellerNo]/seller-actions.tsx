'use client';

import { AskOne, FoldedAsk } from '#app/(stations)/give-forms.tsx';
import { PaymentFields, usePayment } from '#app/(stations)/use-payment.tsx';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Act, Form, Options, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { ChargeView, PartnerView, PayoutSellerView } from '#db/settlement/payout.ts';
import { negate, showMoney } from '#lib/money/money.ts';
import { chargedWords, typedInWords } from '#lib/payment/amount-words.ts';
import { ISSUE_QUESTIONS, type IssueQuestion } from '#lib/settlement/decide-issue.ts';

interface OfSeller {
  readonly saleId: number;
  readonly sellerNo: number;
}

/** Issues this seller number's sheet: from then on it is frozen. With lots that were not called, it is asked first. */
export function IssueOne({ saleId, sellerNo }: OfSeller) {
  const { give, busy, refusal, clear } = useGive('payout');
  const issue = (answered: readonly IssueQuestion[]) =>
    give('settlement.issue', { saleId, sellerNo, answered }, `Sheet of seller ${sellerNo}`);
  const asked = ISSUE_QUESTIONS.find((question) => refusal?.code === 'needs_answer' && refusal.field === question);
  return (
    <>
      {refusal && (
        <Notice kind={asked ? 'wait' : 'stop'} title={refusal.message}>
          {asked && (
            <div className="acts">
              <Act words="Yes, issue it" act={() => issue([asked])} disabled={busy} />
              <Act words="No, go back" act={clear} disabled={busy} />
            </div>
          )}
        </Notice>
      )}
      <Act words="Issue the sheet" act={() => issue([])} main disabled={busy} />
    </>
  );
}

/** Says that the sheet is no longer right, and issues the correction sheet with the reason. */
export function CorrectOne({ saleId, sellerNo, says }: OfSeller & { readonly says: string }) {
  return (
    <div className="notice" data-kind="wait">
      <AskOne
        aria-label="Correction"
        station="payout"
        command="settlement.correct"
        input={{ saleId, sellerNo }}
        asks={{ label: 'Why it is corrected', hint: 'Such as: price of lot 12 misheard' }}
        act="Issue the correction sheet"
        main
        entry={`Correction of seller ${sellerNo}`}
      >
        <p>
          <strong>{says}</strong> The old sheet stays as it was; the correction says what has changed and what is left
          to pay.
        </p>
      </AskOne>
    </div>
  );
}

/** Checks to a partner are written with their number; here is what goes by hand. */
const METHODS = {
  out: { cash: 'Cash', other: 'Other' },
  in: { cash: 'Cash', check: 'Check', card: 'Card', other: 'Other' },
} as const;

interface Partner extends OfSeller, Pick<PartnerView, 'personId' | 'name' | 'due'> {
  /** The payments that were voided. */
  readonly voided: readonly number[];
}

/**
 * Pays a partner in cash, or takes in what a partner owes; `due` is null where nothing may be. What became of it stays to
 * be read when nothing is due any more: of two who pay at once, one must see that the money is not to be handed over again.
 */
export function PayPartner({ saleId, sellerNo, personId, name, due, voided }: Partner) {
  const payment = usePayment('payout', due, voided);
  const { pay, told, amount, busy } = payment;
  const isOut = due?.direction === 'out';
  const record = () => {
    const done = `${typedInWords(amount)} ${isOut ? 'paid to' : 'taken in from'} ${name}.`;
    return pay({ party: { saleId, sellerNo, personId }, label: `Payment of ${name}`, done });
  };
  return (
    <>
      {told}
      {due && (
        <details>
          <summary>{isOut ? `Pay ${name} by hand` : `Take in what ${name} owes`}</summary>
          <Form onEntered={record} busy={busy}>
            <div className="fields">
              <PaymentFields
                payment={payment}
                amountLabel="Amount"
                methods={METHODS[due.direction]}
                hint={isOut ? 'Such as who fetched it' : 'Such as the number of their check'}
              />
            </div>
            <SubmitActs label={`${isOut ? 'Pay' : 'Take in'} ${typedInWords(amount)}`} disabled={busy} />
          </Form>
        </details>
      )}
    </>
  );
}

type Both = OfSeller & Pick<PartnerView, 'personId' | 'name' | 'owesAs'>;

/** What a partner bought and has not paid, set off against what is due to them. It is asked, and never done by itself. */
export function SetOff({ saleId, sellerNo, personId, name, owesAs }: Both) {
  return owesAs.map(({ buyerNo, owes, most }) => (
    <FoldedAsk
      key={buyerNo}
      {...{ station: 'payout', command: 'payment.setoff', field: 'amount' }}
      inputOf={(amount) => ({ saleId, sellerNo, buyerNo, personId, amount })}
      first={most}
      summary={`${name} still owes ${owes} as buyer ${buyerNo}: set it off`}
      entry={`Set-off of ${name}`}
      asks={{ label: 'Amount to set off', hint: 'It stands on the papers of both', inputMode: 'decimal' }}
      act="Set off"
    />
  ));
}

const KINDS = { advance: 'Advance', adjustment: 'Adjustment' } as const;
const HOW = { deducted: 'on the sheet', cash: 'in cash' } as const;

type ChargesProps = OfSeller & Pick<PayoutSellerView, 'charges'> & { readonly open: boolean };

/** What is charged to a seller number or credited to it, and how that is entered or waived, unless the sale is closed. */
export function Charges({ saleId, sellerNo, charges, open }: ChargesProps) {
  const { give, busy, elsewhere, errorOf } = useGive('payout');
  const { texts, field, reset } = useTexts({ kind: 'advance', amount: '', how: 'deducted', note: '' }, errorOf);
  const enter = async () => {
    const chosen = { kind: texts.kind as keyof typeof KINDS, how: texts.how as keyof typeof HOW };
    const reply = await give('charge.add', { saleId, sellerNo, ...texts, ...chosen }, `Charge of seller ${sellerNo}`);
    if (reply.ok) reset();
  };
  return (
    <details className="acts">
      <summary>Charges and credits</summary>
      <ul className="partners">
        {charges.map((charge) => (
          <li key={charge.chargeId}>
            {charge.label}, {HOW[charge.how]}: {chargedWords(charge.amount.cents)}
            {charge.boughtMembership && '. It bought a membership: take the dues back at Intake.'}
            {open && !charge.boughtMembership && (
              <FoldedAsk
                {...{ station: 'payout', command: 'charge.waive', input: { chargeId: charge.chargeId } }}
                summary={`Waive ${charge.label}${cashBack(charge)}`}
                entry={`${charge.label} waived`}
                asks={{ label: 'Why it is waived' }}
                act="Waive it"
              />
            )}
          </li>
        ))}
      </ul>
      {open && (
        <Form onEntered={enter} busy={busy} wrong={elsewhere} aria-label="Charge or credit">
          <div className="fields">
            <ChoiceField label="Kind" {...field('kind')}>
              <Options of={Object.entries(KINDS)} />
            </ChoiceField>
            <TextField label="Amount charged" hint="A credit with a minus, such as -5.00" {...field('amount')} />
            <ChoiceField label="How" hint="Cash is paid now: a charge by the seller, a credit by us" {...field('how')}>
              <Options of={Object.entries(HOW)} />
            </ChoiceField>
            <TextField label="What it is for" hint="Printed on the sheet" {...field('note')} />
          </div>
          <SubmitActs label="Enter it" disabled={busy} />
        </Form>
      )}
    </details>
  );
}

/** What waiving does to the drawer is said before anything is done. */
function cashBack({ how, amount: { cents } }: ChargeView): string {
  if (how !== 'cash') return '';
  return cents > 0 ? ` and hand back ${showMoney(cents)}` : ` and take back ${showMoney(negate(cents))}`;
}

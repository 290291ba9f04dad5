'use client';

import { FoldedAsk } from '#app/(stations)/give-forms.tsx';
import { AskedFirst } from '#app/(stations)/use-payment.tsx';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { BankView } from '#db/bank/bank-view.ts';
import { ARRIVING_WORDS, type Arrival, FEE_KEPT } from '#lib/bank/arrival.ts';
import { shortDate } from '#lib/date/date.ts';
import { showMoney } from '#lib/money/money.ts';

type ArriveProps = BankView['lying'][number] & { readonly saleId: number };

/** Clears what was paid by card or otherwise once it stands on the statement; what is missing is asked about first. */
export function ArriveForm({ saleId, method, amount }: ArriveProps) {
  const { give, busy, refusal, elsewhere, errorOf, clear } = useGive('payout');
  const { texts, field } = useTexts({ amount, arrived: '', day: '' }, errorOf, clear);
  const asked = refusal?.code === 'needs_answer' ? refusal.message : undefined;
  const send = (isFee: boolean) =>
    give('bank.arrive', { saleId, method, ...texts, answered: isFee ? [FEE_KEPT] : [] }, ARRIVING_WORDS[method]);
  return (
    <Form
      onEntered={() => send(false)}
      busy={busy}
      wrong={asked ? undefined : elsewhere}
      aria-label={ARRIVING_WORDS[method]}
    >
      <p>
        {ARRIVING_WORDS[method]} that has not arrived yet: {amount}
      </p>
      <div className="fields">
        <TextField
          label="How much of it this is"
          hint="The payments that one line on the statement is for"
          inputMode="decimal"
          {...field('amount')}
        />
        <TextField label="Arrived" hint="The amount on the statement" inputMode="decimal" {...field('arrived')} />
        <TextField label="Day on the statement" hint="Today if it is left empty" {...field('day')} />
      </div>
      {asked ? (
        <AskedFirst yes="Yes, book the fee" busy={busy} act={() => void send(true)} leave={clear}>
          {asked}
        </AskedFirst>
      ) : (
        <SubmitActs label={`${ARRIVING_WORDS[method]} arrived`} disabled={busy} />
      )}
    </Form>
  );
}

/** What arrived, each to be taken back where it was entered wrong. */
export function Arrivals({ arrivals }: { readonly arrivals: readonly Arrival[] }) {
  return (
    <ul className="partners">
      {arrivals.map(({ arrivalId, method, day, amountCents, feeCents, voided }) => (
        <li key={arrivalId}>
          <strong>
            {ARRIVING_WORDS[method]} {arrivalId}
          </strong>
          , {shortDate(day)}: {showMoney(amountCents)}, fee {showMoney(feeCents)}
          {voided !== null && `. Void: ${voided}`}
          {voided === null && (
            <FoldedAsk
              {...{ station: 'payout', command: 'arrival.void', input: { arrivalId } }}
              summary={`Void arrival ${arrivalId}`}
              entry={`Void arrival ${arrivalId}`}
              act="Void the arrival"
            />
          )}
        </li>
      ))}
    </ul>
  );
}

'use client';

import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { Form, Options, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { useGive, useSaid } from '#app/ui/use-give.ts';
import type { BankView } from '#db/bank/bank-view.ts';
import type { TakenCheck } from '#lib/bank/deposit.ts';
import { showMoney, sumOf } from '#lib/money/money.ts';
import { countWords } from '#lib/result/text.ts';
import { useTicks } from './use-ticks.ts';

type DepositProps = Pick<BankView, 'waiting' | 'cash'> & { readonly saleId: number };

/** Ticks what goes to the bank: all checks at first, and the cash that lies outside the drawer. */
export function DepositForm({ saleId, waiting, cash }: DepositProps) {
  const { give, busy, elsewhere, errorOf } = useGive('payout');
  const { texts, field } = useTexts({ cash, day: '' }, errorOf);
  const { ticked, tick } = useTicks(waiting.map(({ paymentId }) => paymentId));
  const checks = waiting.filter(({ paymentId }) => ticked.has(paymentId));
  const bank = () => {
    const paymentIds = checks.map(({ paymentId }) => paymentId);
    return give('bank.deposit', { saleId, paymentIds, cash: texts.cash, day: texts.day }, 'Deposit');
  };
  return (
    <Form onEntered={bank} busy={busy} wrong={elsewhere} aria-label="Deposit">
      {waiting.map((check) => (
        <CheckField
          key={check.paymentId}
          label={checkWords(check)}
          checked={ticked.has(check.paymentId)}
          onTick={(on) => tick(check.paymentId, on)}
        />
      ))}
      <p>
        {countWords(checks.length, 'check')}: {showMoney(sumOf(checks, 'amountCents'))}
      </p>
      <div className="fields">
        <TextField label="Cash" hint="From outside the drawer" inputMode="decimal" {...field('cash')} />
        <TextField label="Day" hint="Today if it is left empty" {...field('day')} />
      </div>
      <SubmitActs label="Banked" main disabled={busy} />
    </Form>
  );
}

function checkWords({ name, who, by, amountCents }: TakenCheck): string {
  return [`${showMoney(amountCents)} of ${name}`, who, by].join(', ');
}

/** A check that the bank did not get paid: whoever gave it owes again. */
export function BounceForm({ checks }: { readonly checks: readonly TakenCheck[] }) {
  const { give, busy, elsewhere, errorOf } = useGive('payout');
  const { texts, field, reset } = useTexts({ paymentId: '', fee: '', reason: '' }, errorOf);
  const [done, setDone] = useSaid<string>();
  const chosen = checks.find(({ paymentId }) => String(paymentId) === texts.paymentId);
  const record = async () => {
    if (!chosen) return;
    const input = { paymentId: chosen.paymentId, fee: texts.fee, reason: texts.reason };
    const reply = await give('check.bounce', input, `Check of ${chosen.name} came back`);
    if (!reply.ok) return;
    setDone(`${chosen.name} owes it again.`);
    reset();
  };
  return (
    <section aria-label="A check came back">
      <h2>A check came back</h2>
      <Form onEntered={record} busy={busy} done={done} wrong={elsewhere} aria-label="Returned check">
        <div className="fields">
          <ChoiceField label="Which check came back" {...field('paymentId')}>
            <option value="">Choose one</option>
            <Options of={checks.map((check) => [check.paymentId, checkWords(check)])} />
          </ChoiceField>
          <TextField
            label="Fee charged for it"
            hint="Empty for none. State law sets what may be charged: ask locally"
            inputMode="decimal"
            {...field('fee')}
          />
          <TextField label="Why it came back" {...field('reason')} />
        </div>
        <SubmitActs label="It came back" disabled={busy || !chosen} />
      </Form>
    </section>
  );
}

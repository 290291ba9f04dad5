'use client';

import { type ReactNode, useEffect, useRef, useState } from 'react';
import { ChoiceField } from '#app/ui/choice-field.tsx';
import { TextField } from '#app/ui/field.tsx';
import { Act, fieldsOver, Options } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { TypedInput } from '#app/ui/text-field.tsx';
import { unsayAll, useGive, useSaid } from '#app/ui/use-give.ts';
import { readMoney, showMoney, subtractCents } from '#lib/money/money.ts';
import { type Due, PAYMENT_QUESTIONS } from '#lib/payment/decide-payment.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import type { Handed } from '#lib/sale/facts.ts';

type RecordPayment = TypedInput<'payment.record'>;

interface Payment {
  /** The sale, and the buyer or the seller's partner. */
  readonly party: Pick<RecordPayment, 'saleId' | 'buyerNo' | 'sellerNo' | 'personId'>;
  readonly label: string;
  /** What is told once it is recorded. */
  readonly done: string;
}

interface Asked {
  readonly payment: Payment;
  /** What was sent, whatever the page has read since. */
  readonly input: RecordPayment;
  readonly refusal: Refusal;
}

/** The amount is what is due until something else is typed over it. */
const FRESH = { method: 'cash' as Handed, amount: null as string | null, given: '', reference: '' };

/**
 * What is typed for a payment, and its recording. Where the book asks, its question is among `told`, and the payment is
 * sent again once somebody has read it and pressed the button: another cashier may have taken the money meanwhile.
 * `voided` are the payments of the page that were voided: that they were taken is said no more.
 */
export function usePayment(station: 'till' | 'payout', due: Due | null, voided: readonly number[]) {
  const { give, clear, ...given } = useGive(station);
  const [asked, setAsked] = useSaid<Asked>();
  const [typed, setTyped] = useState(FRESH);
  const [done, setDone] = useSaid<{ readonly words: string; readonly paymentId: number }>();
  const amount = typed.amount ?? due?.amount ?? '';
  const send = async (payment: Payment, input: RecordPayment) => {
    const reply = await give('payment.record', input, payment.label);
    setAsked(!reply.ok && reply.code === 'needs_answer' ? { payment, input, refusal: reply } : undefined);
    if (!reply.ok) return;
    setDone({ words: payment.done, paymentId: reply.value.paymentId });
    // What was typed since is for the next payment.
    setTyped((now) => (now === typed ? FRESH : now));
  };
  const pay = async (payment: Payment) => {
    const { method, reference } = typed;
    unsayAll();
    if (!due) return;
    const input = { ...payment.party, direction: due.direction, method, amount, reference } as const;
    const part = askPart(due, amount);
    if (part) setAsked({ payment, input, refusal: part });
    else await send(payment, input);
  };
  const confirm = ({ payment, input, refusal }: Asked) =>
    // What was answered before stays answered: the book may ask a further question.
    send(payment, {
      ...input,
      answered: PAYMENT_QUESTIONS.filter((one) => one === refusal.field || input.answered?.includes(one)),
    });
  const leave = () => {
    setAsked(undefined);
    clear();
  };
  const set = (over: Partial<typeof FRESH>) => {
    setTyped({ ...typed, ...over });
    if (asked) leave();
  };
  // What is asked is said by the question.
  const elsewhere = asked ? '' : given.elsewhere;
  const told: ReactNode = (
    <>
      {done && !voided.includes(done.paymentId) && <Notice kind="done" title={done.words} />}
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      {asked && (
        <Notice kind="wait" title={asked.refusal.message}>
          <div className="acts">
            <Act
              words={asked.input.direction === 'in' ? 'Yes, take it' : 'Yes, pay it'}
              act={() => confirm(asked)}
              disabled={given.busy}
            />
            <Act words="Cancel" act={leave} />
          </div>
        </Notice>
      )}
    </>
  );
  return { ...given, pay, told, typed, amount, set };
}

/** Less than what is due may be a part payment or a slip: whoever takes or pays it is asked. */
function askPart({ direction, amount: due }: Due, typed: string): Refusal | null {
  const [all, part] = [readMoney(due), readMoney(typed, { allowZero: false })];
  if (!all.ok || !part.ok || part.value >= all.value) return null;
  const left = showMoney(subtractCents(all.value, part.value));
  const act = direction === 'in' ? 'Take' : 'Pay';
  const message = `${showMoney(all.value)} is due, and you typed ${showMoney(part.value)}. That leaves ${left} due. ${act} it as a part payment?`;
  return refuse('needs_answer', message, 'amount');
}

interface PaymentFieldsProps {
  readonly payment: Pick<ReturnType<typeof usePayment>, 'typed' | 'amount' | 'set' | 'errorOf'>;
  readonly amountLabel: string;
  readonly methods: Readonly<Partial<Record<Handed, string>>>;
  readonly hint: string;
}

/** The amount, by what it is paid, and a reference. */
export function PaymentFields({ payment, amountLabel, methods, hint }: PaymentFieldsProps) {
  const { typed, amount, set, errorOf } = payment;
  const field = fieldsOver({ ...typed, amount }, set, errorOf);
  return (
    <>
      <TextField label={amountLabel} inputMode="decimal" {...field('amount')} />
      <ChoiceField label="By" value={typed.method} onPick={(value) => set({ method: value as Handed })}>
        <Options of={Object.entries(methods)} />
      </ChoiceField>
      <TextField label="Reference" hint={hint} {...field('reference')} />
    </>
  );
}

interface AskedFirstProps {
  /** What the act will do, in figures. */
  readonly children: ReactNode;
  readonly yes: string;
  readonly busy: boolean;
  readonly act: () => void;
  readonly leave: () => void;
}

/** The question before an act on many at once. It has the focus, as what was pressed is gone. */
export function AskedFirst({ children, yes, busy, act, leave }: AskedFirstProps) {
  const question = useRef<HTMLDivElement>(null);
  useEffect(() => question.current?.focus(), []);
  return (
    <div className="acts" role="alert" ref={question} tabIndex={-1}>
      <p>
        <strong>{children}</strong>
      </p>
      <Act words={yes} act={act} main disabled={busy} />
      <Act words="No, go back" act={leave} disabled={busy} />
    </div>
  );
}

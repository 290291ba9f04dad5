'use client';

import { type ReactNode, useState } from 'react';
import type { Refusal } from '#lib/result.ts';
import { Notice } from './notice.tsx';
import { useGive } from './use-give.ts';
import type { TypedInput } from './whole-number.ts';

type RecordPayment = TypedInput<'payment.record'>;

interface Payment {
  readonly input: Omit<RecordPayment, 'answered'>;
  readonly label: string;
  readonly onDone: () => void;
}

interface Asked {
  readonly payment: Payment;
  readonly refusal: Refusal;
}

/**
 * Records payments. Where the book asks, its question is `question`, and the payment is sent again once somebody has
 * read it and pressed the button: another cashier may have taken the money meanwhile.
 */
export function usePayment(station: 'till' | 'payout') {
  const { give, clear, ...given } = useGive(station);
  const [asked, setAsked] = useState<Asked>();
  const pay = async (payment: Payment, answered: NonNullable<RecordPayment['answered']> = []) => {
    const input = { ...payment.input, answered };
    const reply = await give('payment.record', input, payment.label);
    setAsked(!reply.ok && reply.code === 'needs_answer' ? { payment, refusal: reply } : undefined);
    if (reply.ok) payment.onDone();
  };
  const leave = () => {
    setAsked(undefined);
    clear();
  };
  const question: ReactNode = asked && (
    <Notice kind="wait" title={asked.refusal.message}>
      <div className="acts">
        <button type="button" disabled={given.busy} onClick={() => void pay(asked.payment, ['more_than_owed'])}>
          Yes, take it
        </button>
        <button type="button" onClick={leave}>
          Cancel
        </button>
      </div>
    </Notice>
  );
  // What is asked is said by the question.
  return { ...given, elsewhere: asked ? '' : given.elsewhere, pay, question, leave };
}

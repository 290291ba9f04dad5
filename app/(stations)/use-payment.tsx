'use client';

import { type ReactNode, useEffect, useRef, useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import type { TypedInput } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { Refusal } from '#lib/result/result.ts';

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
      {children}
      <button type="button" className="act" disabled={busy} onClick={act}>
        {yes}
      </button>
      <button type="button" disabled={busy} onClick={leave}>
        No, go back
      </button>
    </div>
  );
}

'use client';

import { useState } from 'react';
import { AskedFirst } from '#app/(stations)/use-payment.tsx';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { Many } from '#db/settlement/payout-view.ts';
import { showMoney } from '#lib/money/money.ts';
import { checkNumberMistake, OWES_AS_BUYER } from '#lib/payment/checks.ts';
import { countWords } from '#lib/result/text.ts';

interface WriteChecksProps {
  readonly saleId: number;
  /** Null for all that can be paid. */
  readonly sellerNo: number | null;
  /** How many seller numbers can be paid. Where none can, only what was refused is told. */
  readonly payable: number;
  /** The checks that would be written, for all that can be paid: how many is asked first. */
  readonly checks?: Many;
  /** What the next check is likely to be numbered. */
  readonly likely: number;
}

/** Writes the checks, numbered from the first on the pile, one for each partner. */
export function WriteChecks({ saleId, sellerNo, payable, checks, likely }: WriteChecksProps) {
  // As they were when it was asked: an answer is to what was read.
  const [asked, setAsked] = useState<Many>();
  const { give, busy, refusal, elsewhere, errorOf, clear } = useGive('payout');
  // The book would say so too, but only once the question was answered.
  const [mistake, setMistake] = useState<string | null>(null);
  const sayOf = (name: string) => (name === 'firstNumber' && mistake) || errorOf(name);
  const { texts, field } = useTexts({ firstNumber: String(likely) }, sayOf, () => setMistake(null));
  const owesToo = refusal?.code === 'needs_answer' ? refusal.message : undefined;
  const write = async (seen: number | null, inFull = false) => {
    setAsked(undefined);
    const answered = inFull ? ([OWES_AS_BUYER] as const) : [];
    const input = { saleId, sellerNo, firstNumber: wholeNumber(texts.firstNumber), seen, answered };
    await give('check.write', input, sellerNo === null ? 'Checks' : `Checks of seller ${sellerNo}`);
  };
  const submit = () => {
    clear();
    const wrong = checkNumberMistake(wholeNumber(texts.firstNumber));
    setMistake(wrong);
    if (wrong) return;
    if (checks) setAsked(checks);
    else void write(null);
  };
  if (payable === 0) return elsewhere && <Notice kind="stop" title={elsewhere} />;
  return (
    <Form className="below-line" onEntered={submit} busy={busy} wrong={owesToo ? undefined : elsewhere}>
      <TextField
        label="Number on the first check"
        hint="The others follow it: one for each partner"
        inputMode="numeric"
        {...field('firstNumber')}
      />
      {owesToo ? (
        <AskedFirst yes="Yes, pay in full" busy={busy} act={() => void write(null, true)} leave={clear}>
          {owesToo}
        </AskedFirst>
      ) : asked ? (
        <AskedFirst
          yes={`Yes, write ${checkWords(asked)}`}
          busy={busy}
          act={() => void write(asked.count)}
          leave={() => setAsked(undefined)}
        >
          Write {checkWords(asked)} from number {texts.firstNumber} on, {showMoney(asked.cents)} in all?
        </AskedFirst>
      ) : (
        <SubmitActs
          label={sellerNo === null ? `Write the checks of ${countWords(payable, 'seller')}` : 'Pay by check'}
          main
          disabled={busy}
        />
      )}
    </Form>
  );
}

const checkWords = (checks: Many) => countWords(checks.count, 'check');

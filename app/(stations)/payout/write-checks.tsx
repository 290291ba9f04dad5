'use client';

import { useState } from 'react';
import { AskedFirst } from '#app/(stations)/use-payment.tsx';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { unsayAll, useGive, useSaid } from '#app/ui/use-give.ts';
import type { CheckNumbers } from '#db/payment/check-numbers.ts';
import type { Many } from '#db/settlement/payout-view.ts';
import { showMoney } from '#lib/money/money.ts';
import { takenMistake } from '#lib/payment/check-numbers.ts';
import { checkNumberMistake, OWES_AS_BUYER } from '#lib/payment/checks.ts';
import { countWords } from '#lib/result/text.ts';

interface WriteChecksProps extends CheckNumbers {
  readonly saleId: number;
  /** Null for all that can be paid. */
  readonly sellerNo: number | null;
  /** How many seller numbers can be paid. Where none can, only what was refused is told. */
  readonly payable: number;
  /** The checks that would be written, for all that can be paid: how many is asked first. */
  readonly checks?: Many;
  /** For one number: how many partners get one. */
  readonly count?: number;
}

/** Writes the checks, numbered from the first on the pile, one for each partner. */
export function WriteChecks({
  saleId,
  sellerNo,
  payable,
  checks,
  count = checks?.count ?? 1,
  likely,
  taken,
}: WriteChecksProps) {
  // As they were when it was asked: an answer is to what was read.
  const [asked, setAsked] = useSaid<Many>();
  const { give, busy, refusal, elsewhere, errorOf, clear } = useGive('payout');
  // The book would say so too, but only once the question was answered.
  const [mistake, setMistake] = useSaid<string>();
  // What was written last moves it on, until something else is typed.
  const [typed, setTyped] = useState<string | null>(null);
  const firstNumber = typed ?? String(likely);
  const owesToo = refusal?.code === 'needs_answer' ? refusal.message : undefined;
  const write = async (seen: number | null, inFull = false) => {
    const answered = inFull ? ([OWES_AS_BUYER] as const) : [];
    const input = { saleId, sellerNo, firstNumber: wholeNumber(firstNumber), seen, answered };
    const reply = await give('check.write', input, sellerNo === null ? 'Checks' : `Checks of seller ${sellerNo}`);
    if (reply.ok) setTyped(null);
  };
  const submit = () => {
    unsayAll();
    const number = wholeNumber(firstNumber);
    const wrong = checkNumberMistake(number) ?? (typeof number === 'number' && takenMistake(number, count, taken));
    if (wrong) return setMistake(wrong);
    if (checks) setAsked(checks);
    else void write(null);
  };
  if (payable === 0) return elsewhere && <Notice kind="stop" title={elsewhere} />;
  return (
    <Form className="below-line" onEntered={submit} busy={busy} wrong={owesToo ? undefined : elsewhere}>
      <TextField
        label={count === 1 ? 'Number on the check' : 'Number on the first check'}
        hint={count === 1 ? undefined : 'The others follow it: one for each partner'}
        inputMode="numeric"
        value={firstNumber}
        error={mistake ?? errorOf('firstNumber')}
        onText={(text) => {
          // What was asked was asked of the number that stood there.
          unsayAll();
          setTyped(text);
        }}
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
          Write {checkWords(asked)} from number {firstNumber} on, {showMoney(asked.cents)} in all?
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

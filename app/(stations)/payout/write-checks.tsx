'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { wholeNumber } from '#app/ui/whole-number.ts';

interface WriteChecksProps {
  readonly saleId: number;
  /** Null for all that can be paid. */
  readonly sellerNo: number | null;
  /** How many seller numbers can be paid. */
  readonly payable: number;
  /** What the next check is likely to be numbered. */
  readonly likely: number;
}

/** Writes the checks, numbered from the first on the pile, one for each partner. */
export function WriteChecks({ saleId, sellerNo, payable, likely }: WriteChecksProps) {
  const [first, setFirst] = useState(String(likely));
  const { give, busy, refusal, errorOf } = useGive('payout');
  const write = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const input = { saleId, sellerNo, firstNumber: wholeNumber(first) };
    await give({ command: 'check.write', input, label: sellerNo === null ? 'Checks' : `Checks of seller ${sellerNo}` });
  };
  const error = errorOf('firstNumber');
  return (
    <form className="below-line" onSubmit={(event) => void write(event)}>
      {refusal && !error && <Notice kind="stop" title={refusal.message} />}
      <TextField
        label="Number on the first check"
        hint="The others follow it: one for each partner"
        error={error}
        inputMode="numeric"
        value={first}
        onChange={(event) => setFirst(event.target.value)}
      />
      <div className="acts">
        <button type="submit" className="act" disabled={busy}>
          {sellerNo === null
            ? `Write the checks of ${payable} ${payable === 1 ? 'seller' : 'sellers'}`
            : 'Pay by check'}
        </button>
      </div>
    </form>
  );
}

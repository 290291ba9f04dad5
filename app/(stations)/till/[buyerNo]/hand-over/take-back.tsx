'use client';

import { type FormEvent, useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface TakeBackProps {
  readonly saleId: number;
  /** Those that are out. */
  readonly lotNos: readonly string[];
}

/** Takes a lot back over the counter, with the reason. */
export function TakeBack({ saleId, lotNos }: TakeBackProps) {
  const [typed, setTyped] = useState({ lotNo: '', reason: '' });
  const { give, busy, refusal, errorOf } = useGive('till');
  const lotNo = lotNos.includes(typed.lotNo) ? typed.lotNo : (lotNos[0] ?? '');
  const takeBack = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const input = { saleId, lotNo, reason: typed.reason };
    const reply = await give('handover.return', input, `Lot ${lotNo} back`);
    if (reply.ok) setTyped({ lotNo: '', reason: '' });
  };
  return (
    <details>
      <summary>A lot came back</summary>
      <form onSubmit={(event) => void takeBack(event)}>
        {refusal && errorOf('reason') === undefined && <Notice kind="stop" title={refusal.message} />}
        <ChoiceField
          label="Which lot"
          value={lotNo}
          onChange={(event) => setTyped({ ...typed, lotNo: event.target.value })}
        >
          {lotNos.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </ChoiceField>
        <TextField
          label="Why it came back"
          error={errorOf('reason')}
          value={typed.reason}
          onChange={(event) => setTyped({ ...typed, reason: event.target.value })}
        />
        <div className="acts">
          <button type="submit">Take it back</button>
        </div>
      </form>
    </details>
  );
}

/** Whether lots may go before they are paid, as the sale has it; the office can change it. */
export function UnpaidRule({ saleId, unpaid }: { readonly saleId: number; readonly unpaid: boolean }) {
  const { give, busy, refusal } = useGive('office');
  const change = () => give('sale.handover', { saleId, unpaid: !unpaid }, 'Handing over unpaid lots');
  return (
    <details>
      <summary>{unpaid ? 'Lots may go unpaid at this sale' : 'Only paid lots are handed over'}</summary>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <p className="small">
        {unpaid
          ? 'Nobody is asked for payment before lots leave the hall.'
          : 'What a buyer takes, with what was taken before, has to be covered by what was paid.'}
      </p>
      <button type="button" disabled={busy} onClick={() => void change()}>
        {unpaid ? 'Hand over only paid lots' : 'Let lots go unpaid'}
      </button>
    </details>
  );
}
